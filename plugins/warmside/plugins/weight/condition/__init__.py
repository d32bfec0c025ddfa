"""Body condition from length and mass; pure computation."""
