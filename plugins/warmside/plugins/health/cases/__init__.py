"""Cases as they run, worked out of what was recorded of them."""
