"""Speeds, measured against something in the same run, so that a slow machine is not taken for slow code."""
