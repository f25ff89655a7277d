"""Proofs of the page of standing-in."""
