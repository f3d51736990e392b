"""The checking pushrod that a builder makes: donor, cuts, drills, and when it cannot be made."""
