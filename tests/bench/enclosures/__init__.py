"""Simulated enclosures, well kept and badly kept, judged day by day through the real hooks."""
