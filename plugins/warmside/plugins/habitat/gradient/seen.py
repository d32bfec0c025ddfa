"""What was last read in the zones of an enclosure, and between what they were of late."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from msgspec import Struct

from warmside.plugins.habitat.logs.probes import Measure


class Reading(Struct, frozen=True):
    """One value of a zone on a day, in its stored unit; `low` and `high` are those of some days."""

    zone: str
    measure: Measure
    value: float
    day: date
    low: float
    high: float


class ZoneSeen(Struct, frozen=True):
    """The newest reading of each measure in a zone."""

    zone: str
    by_measure: Mapping[Measure, Reading]

    def of(self, measure: Measure) -> Reading | None:
        """The newest of a measure, or None."""
        return self.by_measure.get(measure)

    @property
    def last(self) -> date:
        """The day of the newest reading of all."""
        return max(r.day for r in self.by_measure.values())


def seen(readings: Iterable[Reading]) -> dict[str, ZoneSeen]:
    """The newest reading of each zone and measure, by the zone's name in small letters.

    Several of one zone are joined: the widest span, the newest value.
    """
    found: dict[str, dict[Measure, Reading]] = {}
    for one in sorted(readings, key=lambda r: r.day):
        there = found.setdefault(one.zone.casefold().strip(), {})
        before = there.get(one.measure)
        there[one.measure] = _joined(before, one) if before else one
    return {name: ZoneSeen(_name(by), by) for name, by in found.items()}


def elsewhere(found: Mapping[str, ZoneSeen], zones: Iterable[str]) -> Iterator[ZoneSeen]:
    """What was read at places that are no described zones."""
    known = {name.casefold() for name in zones}
    yield from (one for name, one in found.items() if name not in known)


def _joined(before: Reading, one: Reading) -> Reading:
    low, high = min(before.low, one.low), max(before.high, one.high)
    return Reading(one.zone, one.measure, one.value, one.day, low, high)


def _name(by: Mapping[Measure, Reading]) -> str:
    return next(iter(by.values())).zone
