"""Weighings that look mistyped or like another animal's: doubts, by which nothing is changed."""
