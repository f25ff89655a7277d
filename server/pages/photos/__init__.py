"""Pictures: a joint's side by side, one of them large, and the bytes behind them set anew before they are shown."""
