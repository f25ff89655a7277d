"""The bench: the tablet's screen, opened on the frame picture, that takes the log with gloves on and without network."""
