"""One rule in each file; the book next door lists them in the order a reviewer reads them."""
