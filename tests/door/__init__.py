"""The door: commands found, environment made once, errors that say what to do."""
