"""The sample audit screens."""
