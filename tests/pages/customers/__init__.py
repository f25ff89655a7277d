"""Proofs of the customers' pages."""
