"""The bench: the tablet's screen, which opens on the frame picture and takes the log with gloves on, offline if need be."""
