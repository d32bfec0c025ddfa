"""What labels read from the book and ask of other plugins, as plain values."""
