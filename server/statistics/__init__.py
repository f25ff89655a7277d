"""Counting and estimating: numbers in, a number out."""
