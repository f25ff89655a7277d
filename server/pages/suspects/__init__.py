"""Suspect sets: everything that rests on a failed check, where it is, and the facts that let a joint out."""
