"""Sign in by name and PIN, and hand the device over in one tap."""
