"""Telling of families in words, tables and drawings."""
