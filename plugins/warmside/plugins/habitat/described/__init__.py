"""The description of an enclosure: what it is made of, what is in it, and why."""
