"""The owner's page of the service itself."""
