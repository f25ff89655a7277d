"""The owner's page of people: who can sign in, whose PIN is off, who is signed in."""
