"""The doors for machines: JSON in, JSON out."""
