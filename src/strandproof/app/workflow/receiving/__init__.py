"""Use cases about the pieces: purchase, intake, portions, build."""
