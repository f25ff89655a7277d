"""Sheets: TOML texts read together with the line each value stands on, so that a complaint can point at it."""
