"""Proofs of what keeps the service alive."""
