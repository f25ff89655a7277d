"""Proofs of decisions with evidence."""
