"""A file a command: read, answer, word, write."""
