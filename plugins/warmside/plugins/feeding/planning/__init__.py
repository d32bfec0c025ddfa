"""The next meals of one animal: when, how big, of what, and why."""
