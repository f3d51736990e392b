"""One frozen, complete answer a command: everything that is said, computed once."""
