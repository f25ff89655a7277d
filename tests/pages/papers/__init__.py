"""Proofs of the papers on the desk."""
