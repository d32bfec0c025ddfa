"""Meals as they were offered and typed, and what to ask before one is recorded."""
