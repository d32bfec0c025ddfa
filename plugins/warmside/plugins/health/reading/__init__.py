"""What the record says of illness; the only part that reads the book."""
