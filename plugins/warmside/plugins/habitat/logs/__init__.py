"""Files of loggers: their clocks, their columns, their readings; pure computation."""
