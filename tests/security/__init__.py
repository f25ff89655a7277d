"""Who gets in, and what nobody gets past."""
