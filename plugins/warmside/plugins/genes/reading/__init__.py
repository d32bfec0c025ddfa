"""Reading animals, their parents and what is known of their genes."""
