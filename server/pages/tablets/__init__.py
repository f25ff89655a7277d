"""The owner's page of tablets: enrolled by a one-time code, heard of, revoked by name."""
