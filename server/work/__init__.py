"""What people do: one verb, one file."""
