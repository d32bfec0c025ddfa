"""Revisions of the quarantine plugin's tables."""
