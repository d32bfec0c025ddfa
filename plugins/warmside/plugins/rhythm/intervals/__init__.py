"""When something is due again; pure computation, without the book."""
