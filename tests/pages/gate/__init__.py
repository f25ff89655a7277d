"""Proofs of the gates' page."""
