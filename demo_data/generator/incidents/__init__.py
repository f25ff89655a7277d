"""What is planted: one file per incident, each telling causes and outcomes, never a finding of the program."""
