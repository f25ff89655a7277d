"""Leaves, trees, chains and checkpoints: what makes a record show that it was altered."""
