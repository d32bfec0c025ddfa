"""Which signs stand, and which words of notes name one; pure computation, without the book."""
