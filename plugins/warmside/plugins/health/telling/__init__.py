"""Cases and courses in the keeper's words."""
