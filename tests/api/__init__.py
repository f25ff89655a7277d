"""Proofs of the addresses for programs."""
