"""The trace screens: a recording seen, attached, its free beads offered."""
