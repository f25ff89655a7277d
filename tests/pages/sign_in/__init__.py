"""Proofs of the door."""
