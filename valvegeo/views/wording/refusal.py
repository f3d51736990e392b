"""A refusal in words meant for the person at the panel, told apart from a failure of the program."""

from __future__ import annotations


class NotAllowed(ValueError):
    """A value that was set or typed lies outside what is allowed; the message says what is."""
