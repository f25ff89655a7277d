"""Standing in: who acts for somebody absent, until when, and the form to let somebody."""
