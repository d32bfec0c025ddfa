"""Units in which values are stored; a value's JSON key ends in its unit.

A unit is only a name here, so that a manifest stays cheap to import. How it is typed and shown
stands in its measure, which is imported when first needed.
"""

from __future__ import annotations

import re
from typing import ClassVar

_MEASURES = "warmside.core.values.measures"
_OWN_NAME = re.compile(r"[a-z][a-z0-9]*\.[a-z][a-z0-9_]*")
_KNOWN: dict[str, Unit] = {}


class Unit:
    """The unit of a stored number; there is one object for each, so that `is` compares them.

    `code` is the unit itself ("g", "kj_per_day"), `measure` the place of its Measure
    ("module:NAME"). The keys of a `pure` number do not end in it. (No dataclass: its import would
    cost a manifest 5 ms.)
    """

    __slots__ = ("code", "measure", "name", "pure")

    MASS: ClassVar[Unit]
    LENGTH: ClassVar[Unit]
    AREA: ClassVar[Unit]
    VOLUME: ClassVar[Unit]
    TEMPERATURE: ClassVar[Unit]
    TEMPERATURE_DIFFERENCE: ClassVar[Unit]
    DEGREE_HOURS: ClassVar[Unit]
    VAPOUR: ClassVar[Unit]
    PRESSURE: ClassVar[Unit]
    ILLUMINANCE: ClassVar[Unit]
    UV_INDEX: ClassVar[Unit]
    ENERGY: ClassVar[Unit]
    ENERGY_RATE: ClassVar[Unit]
    POWER: ClassVar[Unit]
    ELECTRICITY: ClassVar[Unit]
    HEAT_TRANSFER: ClassVar[Unit]
    GROWTH_RATE: ClassVar[Unit]
    MINUTES: ClassVar[Unit]
    HOURS: ClassVar[Unit]
    DAYS: ClassVar[Unit]
    AGE: ClassVar[Unit]
    PERCENT: ClassVar[Unit]
    COUNT: ClassVar[Unit]
    RATIO: ClassVar[Unit]
    PROBABILITY: ClassVar[Unit]
    MONEY: ClassVar[Unit]

    def __init__(self, name: str, code: str, measure: str, pure: bool) -> None:
        self.name = name
        self.code = code
        self.measure = measure
        self.pure = pure

    def __repr__(self) -> str:
        return f"Unit({self.name})"

    @property
    def suffix(self) -> str:
        """The ending of a JSON key, with its underscore; empty for pure numbers."""
        return "" if self.pure else f"_{self.code}"

    @property
    def words(self) -> str:
        """The name as it is said, without the plugin that it comes from."""
        return self.name.rpartition(".")[2].replace("_", " ")


def own_unit(name: str, code: str, measure: str) -> Unit:
    """A plugin's own unit, named `<plugin>.<word>`, whose Measure is at "module:NAME".

    Make it once, beside the manifest. Raises ValueError where the name is none of the plugin's, or
    was given to another unit.
    """
    if not _OWN_NAME.fullmatch(name):
        raise ValueError(f"unit {name!r} must be named <plugin>.<word>, in small letters")
    return _known(name, code, measure)


def unit_named(name: str) -> Unit | None:
    """The unit of that name, where its plugin has been imported."""
    return _KNOWN.get(name)


def units() -> tuple[Unit, ...]:
    """All units of the core, then those of plugins imported so far."""
    return tuple(_KNOWN.values())


def _known(name: str, code: str, measure: str, pure: bool = False) -> Unit:
    unit = _KNOWN.setdefault(name, Unit(name, code, measure, pure))
    if (unit.code, unit.measure, unit.pure) != (code, measure, pure):
        raise ValueError(f"two units are called {name!r}; give one of them another name")
    return unit


def _core(name: str, code: str, room: str, *, pure: bool = False) -> Unit:
    return _known(name, code, f"{_MEASURES}.{room}:{name.upper()}", pure)


Unit.MASS = _core("mass", "g", "sizes")
Unit.LENGTH = _core("length", "mm", "sizes")
Unit.AREA = _core("area", "mm2", "sizes")
Unit.VOLUME = _core("volume", "ml", "sizes")
Unit.TEMPERATURE = _core("temperature", "c", "climate")
Unit.TEMPERATURE_DIFFERENCE = _core("temperature_difference", "k", "climate")
Unit.DEGREE_HOURS = _core("degree_hours", "k_hours", "climate")
Unit.VAPOUR = _core("vapour", "g_per_m3", "climate")
Unit.PRESSURE = _core("pressure", "pa", "climate")
Unit.ILLUMINANCE = _core("illuminance", "lux", "climate")
Unit.UV_INDEX = _core("uv_index", "uvi", "climate")
Unit.ENERGY = _core("energy", "kj", "energy")
Unit.ENERGY_RATE = _core("energy_rate", "kj_per_day", "energy")
Unit.POWER = _core("power", "w", "energy")
Unit.ELECTRICITY = _core("electricity", "kwh", "energy")
Unit.HEAT_TRANSFER = _core("heat_transfer", "w_per_m2k", "energy")
Unit.GROWTH_RATE = _core("growth_rate", "g_per_day", "sizes")
Unit.MINUTES = _core("minutes", "minutes", "spans")
Unit.HOURS = _core("hours", "hours", "spans")
Unit.DAYS = _core("days", "days", "spans")
Unit.AGE = _core("age", "days", "spans")
Unit.PERCENT = _core("percent", "percent", "numbers")
Unit.COUNT = _core("count", "count", "numbers", pure=True)
Unit.RATIO = _core("ratio", "ratio", "numbers", pure=True)
Unit.PROBABILITY = _core("probability", "probability", "numbers", pure=True)
Unit.MONEY = _core("money", "money", "numbers", pure=True)
