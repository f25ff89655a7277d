"""Proofs of the documents: what is typeset says what the data says, and keeps."""
