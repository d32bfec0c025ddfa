"""Pictures taken in, kept, looked at and forgotten."""
