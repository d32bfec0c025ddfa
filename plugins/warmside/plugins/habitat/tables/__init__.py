"""The plugin's tables."""

from warmside.plugins.habitat.tables.loggers import logger, probe, readings

__all__ = ("logger", "probe", "readings")
