"""Exact inference: probabilities of hidden values joined by small tables."""
