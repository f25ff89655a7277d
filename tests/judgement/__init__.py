"""Proofs of the judgement room."""
