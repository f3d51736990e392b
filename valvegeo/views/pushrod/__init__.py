"""The live panel that moves the pushrod's length and the parts around it."""
