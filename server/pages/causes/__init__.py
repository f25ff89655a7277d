"""The causes of one joint: what the record supports, excludes, and does not know."""
