"""Revisions of the weight plugin's tables."""
