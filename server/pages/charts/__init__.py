"""Charts of what was measured and of what was found, each with what it cannot tell."""
