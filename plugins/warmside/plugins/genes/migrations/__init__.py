"""Revisions of the tables of the genes plugin."""
