"""`warmside health`: the cases of illness."""

from warmside.plugins.health.commands.listing import app

__all__ = ["app"]
