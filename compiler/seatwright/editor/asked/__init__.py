"""What an editor asks of a place or of a file, a question a module."""
