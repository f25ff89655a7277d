"""Drawings as plain data: where everything stands."""
