"""Proofs of the procedure screens."""
