"""The joint pages."""
