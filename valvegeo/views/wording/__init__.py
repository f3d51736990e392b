"""Results in the builder's words."""
