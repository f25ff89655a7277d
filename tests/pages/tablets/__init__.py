"""Proofs of the tablets' page."""
