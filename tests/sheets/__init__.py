"""Proofs of the room that reads sheets."""
