"""Reading who descends from whom."""
