"""Revisions of the feeding plugin's tables."""
