"""Temperatures as plain values: a logger's file, days and hours, limits; without the book."""
