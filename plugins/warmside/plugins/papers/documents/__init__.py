"""Documents and marks as values, and what is due of them; pure, without the book."""
