"""Claims: what was reported, when the shop knew, and everything done about it since."""
