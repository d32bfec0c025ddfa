"""What the page shows, a file a screen; each gives markup and writes nothing."""
