"""Revisions of the plugin's table."""
