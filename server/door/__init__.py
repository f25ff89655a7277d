"""The door: makes the environment stand and finds the commands, with nothing but the standard library."""
