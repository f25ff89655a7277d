"""Proofs of the suspect sets' screens."""
