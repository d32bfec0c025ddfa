"""Revisions of the plugin's tables."""
