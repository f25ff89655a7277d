"""The charts and their pages."""
