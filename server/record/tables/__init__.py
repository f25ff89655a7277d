"""The tables, as SQLModel rows: what is sealed, what is derived from it, and what the door keeps."""
