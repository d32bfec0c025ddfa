"""Units in which values are stored; a value's JSON key ends in its unit."""

from __future__ import annotations

from enum import StrEnum


class Unit(StrEnum):
    """The unit of a stored number; the value is the ending of its JSON key."""

    MASS = "g"
    LENGTH = "mm"
    AREA = "mm2"
    TEMPERATURE = "c"
    VOLUME = "ml"
    ENERGY = "kj"
    ENERGY_RATE = "kj_per_day"
    GROWTH_RATE = "g_per_day"
    HOURS = "hours"
    DAYS = "days"
    PERCENT = "percent"
    COUNT = "count"
    RATIO = "ratio"
    PROBABILITY = "probability"
    MONEY = "money"

    @property
    def suffix(self) -> str:
        """The ending of a JSON key, with its underscore; empty for pure numbers."""
        return "" if self in _PURE else f"_{self.value}"


_PURE = {Unit.COUNT, Unit.RATIO, Unit.PROBABILITY, Unit.MONEY}
