"""Figures as printed in an outside source, each with that source; none that our own code produced."""
