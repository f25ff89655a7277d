"""The registers on the screen."""
