"""Telling of climate, heat and room."""
