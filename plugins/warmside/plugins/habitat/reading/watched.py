"""What the loggers of an enclosure say that wants the keeper to act."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Ask, Book, Finding
from warmside.plugins.habitat import findings
from warmside.plugins.habitat.gradient.alarms import alarms, may_alarm
from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.stretches import Alarm
from warmside.plugins.habitat.gradient.warm_side import FAILED_FOR_S, WARMING_S
from warmside.plugins.habitat.logs.probes import Logger, Measure, Probe
from warmside.plugins.habitat.reading.by_hand import is_well_by_hand
from warmside.plugins.habitat.reading.loggers import probes_of, used
from warmside.plugins.habitat.reading.measured import (
    between,
    kept_extremes,
    last_reading,
    midnight,
    moment,
)
from warmside.plugins.habitat.reading.wanted import cooled_until, inside, lights, limits, wanted

WINDOW_DAYS, LATER_DAYS = 7, 3
"""So many days up to the newest reading are looked at: what a logger brings that is read weekly;
fewer once what is over is not told of any more."""
OVER_DAYS = 3
"""What is over is told of for so long after the logger was read out."""
OLD_DAYS = 30
"""Older readings say nothing of today; that nobody reads the logger is told by then."""
HOUR_S, DAY_S = 3600, 86400
UNREAD_TIMES = 4
"""Intervals without a read-out until it is told: two weeks of holidays are less of a week."""


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
    book, now = ask.book, moment(ask.book, on)
    probes = [p for one in loggers for p in probes_of(book, one) if p.measure is Measure.AIR]
    newest = max((r[0] for p in probes if (r := last_reading(book, p, on))), default=None)
    if newest is None or newest < now - OLD_DAYS * DAY_S:
        return
    read = max((one.read_on for one in loggers if one.read_on and one.read_on <= on), default=on)
    is_new = (on - read).days < OVER_DAYS
    first, after = _window(ask, place, newest, WINDOW_DAYS if is_new else LATER_DAYS, on)
    lit = last_lit(newest, midnight(on, book.home.zone), lights(ask, place))
    bounds = limits(ask, place, on, wanted(ask, place, on))
    if not any(_may_alarm(book, p, first, after, lit, bounds) for p in probes):
        return
    zones = {p.zone: found for p in probes if (found := between(book, p, first, after))}
    for alarm in alarms(zones, bounds, lit):
        if _is_told(ask, place, alarm, bounds, is_new, on):
            yield findings.outside(alarm, place, book.home.zone, book.home.display, now)


def _window(ask: Ask, place: int, newest: int, days: int, on: date) -> tuple[int, int]:
    """The readings that count: of some days, none of before winter cooling ended."""
    first, ended = newest - days * DAY_S, cooled_until(ask, inside(ask, place, on), on)
    if ended is not None:
        first = max(first, midnight(ended + timedelta(days=1), ask.book.home.zone))
    return first, newest + 1


def _is_told(ask: Ask, place: int, alarm: Alarm, bounds: Limits, is_new: bool, on: date) -> bool:
    """What lasts, until a reading says that it is well again; what is over, for a few days."""
    if not alarm.lasts:
        return is_new
    return not is_well_by_hand(ask, place, alarm, bounds, on)


def _may_alarm(
    book: Book, probe: Probe, first: int, after: int, lit: tuple[int, int], limits: Limits
) -> bool:
    """Whether its readings are worth to be looked at one by one: in most rounds none are."""
    whole = kept_extremes(book, probe, first, after)
    warmed = limits.least(probe.zone) is not None
    while_lit = kept_extremes(book, probe, lit[0] + WARMING_S, lit[1]) if warmed else None
    return whole is not None and may_alarm(probe.zone, whole, while_lit, limits)


def last_lit(newest: int, midnight: int, lights: tuple[float, float]) -> tuple[int, int]:
    """The hours of light, on and off, that last were long enough for heat that failed to show."""
    on, off = (midnight + round(HOUR_S * hour) for hour in lights)
    off += DAY_S if off <= on else 0
    while on + WARMING_S + FAILED_FOR_S > newest:
        on, off = on - DAY_S, off - DAY_S
    return on, off
