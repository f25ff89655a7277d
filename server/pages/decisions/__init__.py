"""One decision as it was signed, with the pictures and papers it rests on."""
