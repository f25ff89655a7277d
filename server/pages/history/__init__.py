"""The history of a serial: everything the record holds of one frame, printable."""
