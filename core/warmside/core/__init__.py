"""The record of a collection, its hooks and the plugin host."""

__version__ = "0.1.0"
