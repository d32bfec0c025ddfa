"""What illness asks the keeper to do."""
