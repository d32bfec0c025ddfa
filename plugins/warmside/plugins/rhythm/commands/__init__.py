"""`warmside rhythm`: set, list and drop rhythms."""

from warmside.plugins.rhythm.commands.rhythms import app

__all__ = ["app"]
