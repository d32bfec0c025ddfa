"""Shed cycles read from what was seen, and what came of each shed; pure computation."""
