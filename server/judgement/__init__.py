"""An occasion in, verdicts out: one rule, one file."""
