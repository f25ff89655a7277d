"""Proofs of the screens."""
