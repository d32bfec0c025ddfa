"""The numbers of transponders; pure computation, without the book."""
