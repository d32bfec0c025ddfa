"""What the keeper should know, from plain values to findings."""
