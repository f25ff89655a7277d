"""The day of release: what was open, waived or late then, who signed, and what came to light since."""
