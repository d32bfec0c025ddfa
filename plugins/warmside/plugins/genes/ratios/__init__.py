"""Counts of young against the ratio that was expected of them."""
