"""Strawline: what was welded, under which procedure, and how one can tell."""
