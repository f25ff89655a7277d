"""Paper for the bench: the traveller that goes with a frame, and labels for rod sleeves and cylinders."""
