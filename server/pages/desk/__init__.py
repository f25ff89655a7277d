"""The desk: what holds up which frame this morning, and the decision about it."""
