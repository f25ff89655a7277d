"""Proofs of the page of joint lives."""
