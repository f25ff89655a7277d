"""The manners of the house, held; each check is shown to bite."""
