"""Loss of mass: what is usual, what has a reason, what has none."""
