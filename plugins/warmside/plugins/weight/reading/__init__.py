"""What the record says of weights: the only readers of the book."""
