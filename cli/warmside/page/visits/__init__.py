"""One request of one phone: what is served, what may be seen, what was done before."""
