"""The only room that speaks SQL, and the one writer."""
