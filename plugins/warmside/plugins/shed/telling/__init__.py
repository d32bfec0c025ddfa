"""What is known of sheds as parts of answers; values in, parts out."""
