"""The plugin's tables."""

from warmside.plugins.habitat.tables.description import description
from warmside.plugins.habitat.tables.loggers import logger, probe, readings

__all__ = ("description", "logger", "probe", "readings")
