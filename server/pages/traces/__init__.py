"""Machine traces: a recording attached to its pass, looked at bead by bead, its free beads offered as passes."""
