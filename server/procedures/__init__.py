"""Written procedures: their text read, checked, compared and made into limit cards."""
