"""Loggers and their probes as values, and what a probe measures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from enum import StrEnum

from msgspec import Struct

from warmside.api import BadInput, Unit, near_miss
from warmside.plugins.habitat.logs.clock import Clock, Order

PER_UNIT = 1000
"""Readings are stored as whole thousandths of their unit."""


class Measure(StrEnum):
    """What a probe measures."""

    AIR = "air"
    SURFACE = "surface"
    HUMIDITY = "humidity"
    UV = "uv"

    @property
    def unit(self) -> Unit:
        """The unit in which it is stored."""
        return _UNITS[self]

    @property
    def is_temperature(self) -> bool:
        """Whether it is a temperature."""
        return self in (Measure.AIR, Measure.SURFACE)


_UNITS = {
    Measure.AIR: Unit.TEMPERATURE,
    Measure.SURFACE: Unit.TEMPERATURE,
    Measure.HUMIDITY: Unit.PERCENT,
    Measure.UV: Unit.UV_INDEX,
}
SPANS = {
    Measure.AIR: (-40.0, 90.0),
    Measure.SURFACE: (-40.0, 150.0),
    Measure.HUMIDITY: (0.0, 100.0),
    Measure.UV: (0.0, 30.0),
}
"""The least and most that a probe of an enclosure measures, in the stored unit."""


class Probe(Struct, frozen=True):
    """One column of a logger: where it hangs, what it measures, how far it is off.

    `offset` in thousandths of the stored unit is added to each reading, as found on `checked`.
    """

    id: int
    logger_id: int
    column: str
    zone: str
    measure: Measure
    fahrenheit: bool = False
    offset: int = 0
    checked: date | None = None

    def value(self, stored: float) -> float:
        """A stored reading in its unit, the offset added."""
        return (stored + self.offset) / PER_UNIT

    @property
    def words(self) -> str:
        """`warm side, surface`; the air of a zone is the zone alone."""
        return self.zone if self.measure is Measure.AIR else f"{self.zone}, {self.measure}"


class Logger(Struct, frozen=True):
    """A logger in an enclosure, and how its files are written; it is read every so many days."""

    id: int
    enclosure_id: int | None
    name: str
    time_column: str
    order: Order
    clock: Clock
    every_days: int
    since: date
    stopped: date | None = None
    read_on: date | None = None

    def is_used(self, on: date) -> bool:
        """Whether it hangs there on a day."""
        here = self.enclosure_id is not None and self.since <= on
        return here and not (self.stopped and self.stopped <= on)


def told_apart(probes: Sequence[Probe], loggers: Mapping[int, str]) -> dict[int, str]:
    """By probe what tells it from others that measure the same in its zone; empty where none does.

    That is its logger by name, and its column where the logger has two there.
    """
    places = Counter((p.zone.casefold(), p.measure) for p in probes)
    hung = Counter((p.zone.casefold(), p.measure, p.logger_id) for p in probes)
    found = {}
    for p in probes:
        place = (p.zone.casefold(), p.measure)
        column = f", {p.column}" if hung[*place, p.logger_id] > 1 else ""
        found[p.id] = f"{loggers[p.logger_id]}{column}" if places[place] > 1 else ""
    return found


def typed_probe(text: str) -> tuple[str, str, Measure, bool]:
    """Column, zone, measure and whether in degrees F, of `Temp 1=warm side:air:F`."""
    column, sign, rest = text.rpartition("=")
    zone, *more = [part.strip() for part in rest.split(":")]
    if not sign or not column.strip() or not zone or len(more) > 2:
        raise BadInput(
            f"{text!r} is no probe; type COLUMN=ZONE, or COLUMN=ZONE:air|surface|humidity|uv, and "
            "a temperature's unit behind it: 'Temp 1=warm side:air:F'"
        )
    measure = _measure(more[0] if more else Measure.AIR)
    unit = (more[1] if len(more) == 2 else "").upper()
    if unit not in ("", "C", "F") or (unit and not measure.is_temperature):
        raise BadInput(f"{text!r}: the unit of a temperature is C or F, other measures have none")
    return column.strip(), zone, measure, unit == "F"


def _measure(word: str) -> Measure:
    known = {m.value: m for m in Measure}
    if word.casefold() not in known:
        hint = near_miss(word, list(known))
        raise BadInput(f"{word!r} is nothing a probe measures{hint}; it is: {', '.join(known)}")
    return known[word.casefold()]
