"""The written procedures: read one in the order of the work, compare two revisions."""
