"""The tables, as SQLModel rows: what is sealed, what stands beside it, what is derived, and what the door keeps."""
