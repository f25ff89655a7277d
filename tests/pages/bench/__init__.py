"""Proofs of the bench: its sheet, its script in a real browser, and what a welder sees."""
