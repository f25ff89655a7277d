"""Proofs of the addresses around a claim: the dossier, the causes, what else, and the claim's own file."""
