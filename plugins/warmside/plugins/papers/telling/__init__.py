"""Marks and documents as parts of answers."""
