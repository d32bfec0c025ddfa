"""A protocol as a value: what it asks, who says so, how it is read and typed; no book."""
