"""Proofs of the commands that can be typed."""
