"""What keeps the service itself alive: certificate, backups, drills, its condition, and what it tells of it."""
