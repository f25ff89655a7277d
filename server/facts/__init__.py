"""The nouns of the house, as frozen models; this floor imports nothing of ours."""
