"""The schema's history; each step is run once, on SQLite and PostgreSQL alike."""
