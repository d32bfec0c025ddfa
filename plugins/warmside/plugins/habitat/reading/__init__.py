"""What the record holds of loggers and their readings; the only reader of the book."""
