"""Proofs of the statistics room, each file beside the one it proves."""
