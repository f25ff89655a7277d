"""The calculators, asked as a shop asks them."""
