"""The frame shared by all screens."""
