"""The only reader of the book: rows and events in, the values of the pure part out."""

from warmside.plugins.feeding.reading.animals import Reading

__all__ = ["Reading"]
