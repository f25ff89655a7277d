"""The desk's lists for whoever reckons with them elsewhere: CSV, and a sheet that types every column."""
