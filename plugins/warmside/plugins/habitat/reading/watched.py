"""What the loggers of an enclosure say that wants the keeper to act."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Book, Finding
from warmside.plugins.habitat import findings
from warmside.plugins.habitat.gradient.alarms import (
    FAILED_FOR_S,
    HOT_FOR_S,
    Limits,
    alarms,
    may_alarm,
)
from warmside.plugins.habitat.logs.probes import Logger, Measure, Probe
from warmside.plugins.habitat.reading.loggers import probes_of, used
from warmside.plugins.habitat.reading.measured import (
    between,
    extremes,
    last_reading,
    midnight,
    moment,
)
from warmside.plugins.habitat.reading.wanted import lights, limits, wanted

WINDOW_DAYS = 3
HOUR_S, DAY_S = 3600, 86400
UNREAD_TIMES = 3


def watched(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Findings about places with loggers: all, or one enclosure or an animal's home."""
    by_place: dict[int, list[Logger]] = defaultdict(list)
    for logger in used(ask.book, on, about):
        if logger.enclosure_id is not None:
            by_place[logger.enclosure_id].append(logger)
        yield from _silent(ask, logger, on)
    for place, those in by_place.items():
        yield from _outside(ask, place, those, on)


def _silent(ask: Ask, logger: Logger, on: date) -> Iterator[Finding]:
    book, zone = ask.book, ask.book.home.zone
    days = findings.days_unread(logger, on)
    if days >= UNREAD_TIMES * logger.every_days:
        yield findings.overdue(logger, days)
    if logger.read_on is None or logger.read_on > on:
        return
    last = max(
        (r[0] for p in probes_of(book, logger) if (r := last_reading(book, p, on))), default=None
    )
    begin = midnight(logger.read_on, zone)
    hours = (begin - (last or midnight(logger.since, zone))) / 3600
    if hours > float(ask.value("habitat", "silent_hours", About()).value):
        yield findings.stopped(logger, hours, last, zone)


def _outside(ask: Ask, place: int, loggers: list[Logger], on: date) -> Iterator[Finding]:
    book, until = ask.book, moment(ask.book, on)
    probes = [p for one in loggers for p in probes_of(book, one) if p.measure is Measure.AIR]
    newest = max((r[0] for p in probes if (r := last_reading(book, p, on))), default=None)
    first = until - WINDOW_DAYS * DAY_S
    if newest is None or newest < first:
        return
    lit = last_lit(newest, midnight(on, book.home.zone), lights(ask, place))
    bounds = limits(ask, place, on, wanted(ask, place, on))
    if not any(_may_alarm(book, p, first, until + 1, lit, bounds) for p in probes):
        return
    zones = {p.zone: found for p in probes if (found := between(book, p, first, until + 1))}
    for alarm in alarms(zones, bounds, lit):
        yield findings.outside(alarm, place, book.home.zone, book.home.display, until)


def _may_alarm(
    book: Book, probe: Probe, first: int, after: int, lit: tuple[int, int], limits: Limits
) -> bool:
    """Whether its readings are worth to be looked at one by one: in most rounds none are."""
    whole = extremes(book, probe, first, after)
    while_lit = extremes(book, probe, lit[0] + HOT_FOR_S, lit[1])
    return whole is not None and may_alarm(probe.zone, whole, while_lit, limits)


def last_lit(newest: int, midnight: int, lights: tuple[float, float]) -> tuple[int, int]:
    """The hours of light, on and off, that last were long enough for heat that failed to show."""
    on, off = (midnight + round(HOUR_S * hour) for hour in lights)
    off += DAY_S if off <= on else 0
    while on + HOT_FOR_S + FAILED_FOR_S > newest:
        on, off = on - DAY_S, off - DAY_S
    return on, off
