"""Writes the invented demo shop as a shop folder: a fixed seed, and the same seed gives the same bytes."""
