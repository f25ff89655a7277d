"""Proofs of what else used a thing, on its page."""
