"""Containments: which frames share a doubt, the draft notice, who was told when, and what came back."""
