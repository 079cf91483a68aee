"""Parts on the bench, sound or damaged."""
