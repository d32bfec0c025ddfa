"""Revisions of the tables of the habitat plugin."""
