"""The desk and its papers."""
