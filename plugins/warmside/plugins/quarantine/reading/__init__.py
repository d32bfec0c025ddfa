"""Reads the book into the plain values of the other folders, each worked out once a snapshot."""
