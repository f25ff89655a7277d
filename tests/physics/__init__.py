"""Proofs of the physics room, each file beside the one it proves."""
