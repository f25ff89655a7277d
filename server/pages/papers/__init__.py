"""Papers the desk signs: nonconformities with containment, cause and action; concessions with count and expiry."""
