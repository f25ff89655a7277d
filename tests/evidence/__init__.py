"""Evidence: what is written, hashed, chained and signed, and that every change of it is named."""
