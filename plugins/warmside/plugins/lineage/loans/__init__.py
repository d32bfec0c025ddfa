"""Loans: from when to when, with whom, and which young fall to which side."""
