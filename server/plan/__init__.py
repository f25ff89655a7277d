"""The frame's weld order and what covers what."""
