"""Prey in the freezer: lots, what is left of them, what to thaw and what to buy."""
