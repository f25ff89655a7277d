"""Facts made into drawings."""
