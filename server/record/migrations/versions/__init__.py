"""The steps, named by their date."""
