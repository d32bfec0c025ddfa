"""What the keeper should know of an illness; it never says what it is nor what to give."""
