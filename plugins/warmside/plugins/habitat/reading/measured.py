"""The readings of probes, and the days that they lie in."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from warmside.api import Book
from warmside.plugins.habitat.logs.probes import PER_UNIT, Probe

if TYPE_CHECKING:
    from warmside.plugins.habitat.gradient.zones import Instants, Values

BETWEEN = (
    "SELECT at, value FROM habitat_reading WHERE probe_id = ? AND at >= ? AND at < ? ORDER BY at"
)
LAST = (
    "SELECT at, value FROM habitat_reading WHERE probe_id = ? AND at <= ? ORDER BY at DESC LIMIT 1"
)
EXTREMES = (
    "SELECT min(value), max(value) FROM habitat_reading WHERE probe_id = ? AND at >= ? AND at < ?"
)

MEAN = "SELECT avg(value) FROM habitat_reading WHERE probe_id = ? AND at >= ? AND at < ?"


def midnight(day: date, zone: ZoneInfo) -> int:
    """The first instant of a local day, in seconds since 1970."""
    return int(datetime.combine(day, time.min, zone).timestamp())


def midnights(first: date, last: date, zone: ZoneInfo) -> list[int]:
    """The first instants of the local days, both included."""
    days = (last - first).days + 1
    return [midnight(first + timedelta(days=n), zone) for n in range(days)]


def moment(book: Book, on: date) -> int:
    """Now, or the end of a day that is over, in seconds since 1970."""
    return min(int(book.now.timestamp()), midnight(on + timedelta(days=1), book.home.zone) - 1)


def last_reading(book: Book, probe: Probe, on: date) -> tuple[int, float] | None:
    """Instant and value of the newest reading up to a day."""
    rows = book.rows(LAST, (probe.id, moment(book, on)))
    return (rows[0][0], probe.value(rows[0][1])) if rows else None


def between(book: Book, probe: Probe, first: int, after: int) -> list[tuple[int, float]]:
    """The readings from an instant up to another, in order."""
    return [(at, probe.value(v)) for at, v in book.rows(BETWEEN, (probe.id, first, after))]


def extremes(book: Book, probe: Probe, first: int, after: int) -> tuple[float, float] | None:
    """The least and the most from an instant up to another; None without a reading."""
    ((low, high),) = book.rows(EXTREMES, (probe.id, first, after))
    return (probe.value(low), probe.value(high)) if low is not None else None


def kept_extremes(book: Book, probe: Probe, first: int, after: int) -> tuple[float, float] | None:
    """As `extremes`, kept until readings come: a week of minutes is not gone through each round."""
    key = f"habitat.extremes:{probe.id}:{probe.offset}:{first}:{after}"
    make = lambda: extremes(book, probe, first, after)  # noqa: E731
    found = book.derived(key, ("habitat_reading",), make)
    return found and (found[0], found[1])


def mean(book: Book, probe: Probe, first: int, after: int) -> float:
    """The mean from an instant up to another, in which there is a reading."""
    ((value,),) = book.rows(MEAN, (probe.id, first, after))
    return probe.value(value)


def columns(book: Book, probe: Probe, first: int, after: int) -> tuple[Instants, Values]:
    """As `between`, as two NumPy columns: a year of minutes in 10 MB."""
    import numpy as np

    pairs = np.fromiter(
        book.stream(BETWEEN, (probe.id, first, after)), dtype=[("at", "i8"), ("value", "i8")]
    )
    return pairs["at"], (pairs["value"] + probe.offset) / PER_UNIT
