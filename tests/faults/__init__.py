"""The faults a shop meets, made on purpose: power cut, failing disk, full disk, killed process, altered backup."""
