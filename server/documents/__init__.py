"""Facts made into documents that can be printed and kept."""
