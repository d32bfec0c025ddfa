"""What the page shows, a file a screen or two; each gives markup and writes nothing."""
