"""The live panels of ordering: later changes, and the checking pushrod's plan."""
