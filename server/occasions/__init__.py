"""Everything relevant as known at a record position, put together with every look-up resolved."""
