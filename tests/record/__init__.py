"""Proofs of the record: what is kept, in which order, sealed how, and what it answers."""
