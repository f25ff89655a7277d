"""Proofs of the room that knows weld order, covers, gas paths and the side view."""
