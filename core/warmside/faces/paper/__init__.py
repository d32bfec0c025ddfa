"""The PDF face: a whole answer as a report that prints well in black and white."""
