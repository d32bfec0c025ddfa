"""Light: hours of day by latitude, a switching table for a timer, the UV index of a zone."""
