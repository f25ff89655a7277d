"""Proofs of the demo shop: its generator, and that what it plants is there."""
