"""Tasks of the round settled, shown and put off."""
