"""Proofs of the papers for the bench."""
