"""What is known of weights as parts of answers; values in, parts out."""
