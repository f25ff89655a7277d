"""One's own page: change one's PIN or pass phrase, see and end one's sessions."""
