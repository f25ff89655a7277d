"""The proofs, laid out as the house is: tests/<room>/test_<file>.py."""
