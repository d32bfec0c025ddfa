"""Where a quarantine stands, from the events of one animal and its protocol alone; no book."""
