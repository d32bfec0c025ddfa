"""Copies of the file: made daily, kept by age, restored."""
