"""Temperatures as curves, as a plan of the enclosure, as tables and words."""
