"""Formulas of the weld: numbers in, a number out."""
