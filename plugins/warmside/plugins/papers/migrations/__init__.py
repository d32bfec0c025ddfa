"""Revisions of the papers plugin's tables."""
