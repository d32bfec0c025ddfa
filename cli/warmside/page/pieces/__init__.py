"""What screens are made of, and write nothing: the frame, forms from declarations, cards."""
