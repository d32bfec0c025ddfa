"""The weighings of animals up to some days before the last one, kept across runs by animal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from math import ceil

from warmside.api import Book
from warmside.plugins.weight.course.weights import Clean, Rows, cleaned, first_day
from warmside.plugins.weight.reading.rows import KINDS, rows_of

EVENTS = tuple(f"event:{kind}" for kind in KINDS)


def recent_clean(
    book: Book, last: Mapping[int, date], window: float, digestion: Mapping[int, float], until: date
) -> dict[int, Clean]:
    """The weighings of a window of days before the last one, by animal.

    `last` gives the day of that weighing of each, which is none after `until`, and `digestion` for
    how many days a meal weighs in its gut.
    """
    days = ceil(window + max(digestion.values(), default=0.0) + 1)
    hatched = {id: first_day(book.animals[id]) for id in last}

    def make(ids: Sequence[int]) -> dict[int, Clean]:
        first = {id: last[id] - timedelta(days=days) for id in ids}
        rows = rows_of(book, ids, KINDS, min(first.values()), until)
        mine = {id: _since(rows[id], float(first[id].toordinal())) for id in ids}
        return {id: cleaned(mine[id], hatched[id], digestion[id], window) for id in ids}

    zone = book.home.zone.key
    given = {id: (zone, window, digestion[id], hatched[id]) for id in last}
    return book.derived_each("weight.clean", until, given, EVENTS, make, Clean)


def _since(rows: Rows, first: float) -> Rows:
    """The rows from a day on."""
    return Rows(
        [row for row in rows.weighed if row[1] >= first],
        [row for row in rows.meals if row[0] >= first],
        [day for day in rows.refused if day >= first],
        [day for day in rows.laid if day >= first],
        [day for day in rows.sheds if day >= first],
        [row for row in rows.cooling if row[0] >= first],
        [row for row in rows.gravid if row[0] >= first],
        rows.checked,
    )
