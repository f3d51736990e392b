"""Hazards: what one is, and each one's words, once."""
