"""Customers, for the owner: who stands behind a number, and the signed line that removes the details for good."""
