"""What the readings of a zone say: spans by day and night, hours outside a target, gaps."""
