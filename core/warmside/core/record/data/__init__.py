"""Reference data of the core."""
