"""One entry of the log by its id: what a chart, a calendar or a finding points at."""
