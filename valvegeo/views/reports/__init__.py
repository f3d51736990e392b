"""What each command says, as sections, a file a command."""
