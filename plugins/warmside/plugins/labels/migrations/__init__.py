"""Revisions of the labels plugin's tables."""
