"""Hooks of the habitat plugin."""
