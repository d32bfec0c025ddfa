"""A death: what was found, and what is asked of those who are left and of what it lived with."""
