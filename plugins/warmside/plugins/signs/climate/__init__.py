"""What a reading means for who lives there; pure computation, without the book."""
