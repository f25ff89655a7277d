"""Proofs of the history screens."""
