"""Quarantines as words, parts of answers, label lines and places in the round."""
