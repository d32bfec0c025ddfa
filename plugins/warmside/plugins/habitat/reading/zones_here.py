"""What was measured in an enclosure over some days, ready to be told."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

from warmside.api import Ask, Book
from warmside.plugins.habitat.gradient.swing import swing
from warmside.plugins.habitat.gradient.targets import target
from warmside.plugins.habitat.gradient.zones import summary
from warmside.plugins.habitat.logs.probes import Measure, Probe, told_apart
from warmside.plugins.habitat.reading.loggers import loggers, probes_in
from warmside.plugins.habitat.reading.measured import (
    between,
    columns,
    last_reading,
    midnight,
    midnights,
)
from warmside.plugins.habitat.reading.wanted import lights, wanted
from warmside.plugins.habitat.telling.zones import Measured

Curve = tuple[str, list[tuple[int, float]]]
"""Where it was measured, and the readings."""
SWING_DAYS = 2
"""Over so many last days the thermostat's swing is looked for."""


def measured(ask: Ask, enclosure_id: int, first: date, last: date) -> list[Measured]:
    """The summary of each probe over the days, both included; probes without readings are left
    out."""
    zone, spans = ask.book.home.zone, wanted(ask, enclosure_id, last)
    begins = midnights(first, last, zone)
    after, hours = midnight(last + timedelta(days=1), zone), lights(ask, enclosure_id)
    found, probes = [], probes_in(ask.book, enclosure_id)
    names = _told_apart(ask.book, probes)
    for probe in probes:
        at, values = columns(ask.book, probe, begins[0], after)
        if len(at):
            goal = target(probe.zone, probe.measure, spans)
            said = summary(at, values, begins, hours, goal)
            late = between(ask.book, probe, after - SWING_DAYS * 86400, after)
            turning = swing(late) if probe.measure is Measure.AIR else None
            found.append(Measured(probe, said, goal, turning, names[probe.id]))
    return found


def _told_apart(book: Book, probes: Sequence[Probe]) -> dict[int, str]:
    return told_apart(probes, {one.id: one.name for one in loggers(book)})


def last_curves(ask: Ask, enclosure_id: int, on: date) -> tuple[date, list[Curve]]:
    """The last whole day up to `on` on which the air was measured, with its readings.

    Where only one day was measured it is that, whole or not.
    """
    air = [p for p in probes_in(ask.book, enclosure_id) if p.measure is Measure.AIR]
    last = max((r[0] for p in air if (r := last_reading(ask.book, p, on))), default=None)
    if last is None:
        return on, []
    newest = datetime.fromtimestamp(last, UTC).astimezone(ask.book.home.zone).date()
    days = (newest - timedelta(days=1), newest)
    return next((d, c) for d in days if (c := curves(ask, enclosure_id, d)))


def curves(ask: Ask, enclosure_id: int, on: date) -> list[Curve]:
    """The readings of the air of a day, for each probe that has any, by its zone and logger."""
    zone = ask.book.home.zone
    first, after = midnight(on, zone), midnight(on + timedelta(days=1), zone)
    air = [p for p in probes_in(ask.book, enclosure_id) if p.measure is Measure.AIR]
    found = [(p, between(ask.book, p, first, after)) for p in air]
    names = _told_apart(ask.book, air)
    apart = {p.id: f"{p.zone} ({names[p.id]})" if names[p.id] else p.zone for p in air}
    return [(apart[p.id], readings) for p, readings in found if readings]
