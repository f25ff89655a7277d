"""What else shares a thing with a weld: a band of time, and where everything is now."""
