"""The rows of animals up to some days before their last weighing, kept across runs by animal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from math import ceil

from warmside.api import Book
from warmside.plugins.weight.course.weights import Rows
from warmside.plugins.weight.reading.rows import KINDS, rows_of

EVENTS = tuple(f"event:{kind}" for kind in KINDS)


def recent_rows(book: Book, last: Mapping[int, date], days: float, until: date) -> dict[int, Rows]:
    """The rows of animals from so many days before the last weighing on, by animal.

    `last` gives the day of that weighing of each, which is none after `until`.
    """

    def make(ids: Sequence[int]) -> dict[int, Rows]:
        first = {id: last[id] - timedelta(days=ceil(days)) for id in ids}
        rows = rows_of(book, ids, KINDS, min(first.values()), until)
        return {id: _since(rows[id], float(first[id].toordinal())) for id in ids}

    given = dict.fromkeys(last, (book.home.zone.key, days))
    return book.derived_each("weight.a-year", until, given, EVENTS, make, Rows)


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
