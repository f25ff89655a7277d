"""What every screen shares: the sheet it is printed on, its marks, its assets and how it is filled."""
