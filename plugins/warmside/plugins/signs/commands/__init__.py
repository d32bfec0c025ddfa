"""`warmside signs`: the list of signs, and the steps of body condition."""

from warmside.plugins.signs.commands.lists import app

__all__ = ["app"]
