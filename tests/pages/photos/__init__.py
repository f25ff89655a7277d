"""Proofs of the pictures' screens."""
