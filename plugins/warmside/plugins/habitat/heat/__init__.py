"""Heat: what walls and air let through, watts that are needed, how long it stays warm."""
