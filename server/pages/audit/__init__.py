"""The sample audit: joints without a finding, drawn by lot and looked at again, and what that says of all others."""
