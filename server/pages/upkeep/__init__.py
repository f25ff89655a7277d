"""The owner's page of the service itself: what it needs, how that is, and what to do."""
