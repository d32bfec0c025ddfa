"""What the record says of sheds: the only readers of the book."""
