"""Revisions of the health plugin's table."""
