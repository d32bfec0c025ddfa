"""A simulated herd, replayed week by week through the real hooks: what the findings are worth."""
