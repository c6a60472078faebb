"""One module for each kind of command."""
