"""Proofs of the room that reads written procedures."""
