"""The live panel that reads the mark."""
