"""Revisions of the rhythm plugin's tables."""
