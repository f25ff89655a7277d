"""One frame's story, end to end, over real HTTP on a real file."""
