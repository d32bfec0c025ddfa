"""What the record holds of descriptions, loggers and readings; the only reader of the book."""
