"""The bench: the tablet's screen, opened on the frame picture, that takes the log with or without network."""
