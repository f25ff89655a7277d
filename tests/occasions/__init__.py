"""Proofs of the room that settles times, order and look-ups."""
