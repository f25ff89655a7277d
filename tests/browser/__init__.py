"""Proofs in a real browser: the shipped scripts against the real application."""
