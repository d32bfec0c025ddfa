"""Room: published rules for the size of an enclosure, side by side."""
