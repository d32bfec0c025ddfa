"""Drawings, charts and timelines as one sketch, for paper, screen and SVG."""
