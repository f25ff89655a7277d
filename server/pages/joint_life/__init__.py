"""Joint life: how often joints were claimed, how long they hold, and what that cannot tell."""
