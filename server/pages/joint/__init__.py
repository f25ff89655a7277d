"""One joint of one frame: its place, what was logged and when it truly happened, every verdict, and what is usual."""
