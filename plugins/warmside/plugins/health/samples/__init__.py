"""Samples that were handed in, the results that are awaited, and the yearly faecal check."""
