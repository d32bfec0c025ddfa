"""The rows of animals up to some days before their last weighing, kept across runs by animal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from math import ceil
from typing import Any

from warmside.api import Book
from warmside.plugins.weight.course.weights import Rows
from warmside.plugins.weight.reading.rows import KINDS, rows_of

EVENTS = tuple(f"event:{kind}" for kind in KINDS)


def recent_rows(book: Book, last: Mapping[int, date], days: float, until: date) -> dict[int, Rows]:
    """The rows of animals from so many days before the last weighing on, by animal.

    `last` gives the day of that weighing of each, which is none after `until`.
    """

    def make(ids: Sequence[int]) -> dict[int, Any]:
        first = {id: last[id] - timedelta(days=ceil(days)) for id in ids}
        rows = rows_of(book, ids, KINDS, min(first.values()), until)
        return {id: _to_keep(rows[id], float(first[id].toordinal())) for id in ids}

    given = [book.home.zone.key, days]
    kept = book.derived_each("weight.recent", until, dict.fromkeys(last, given), EVENTS, make)
    return {id: _from_kept(columns) for id, columns in kept.items()}


def _to_keep(rows: Rows, first: float) -> list[Any]:
    """The rows from a day on, as columns: half the text of rows."""
    weighed = [row for row in sorted(rows.weighed) if row[1] >= first]
    meals, cooling, gravid = (
        [row for row in sorted(found) if row[0] >= first]
        for found in (rows.meals, rows.cooling, rows.gravid)
    )
    laid, sheds = ([d for d in sorted(days) if d >= first] for days in (rows.laid, rows.sheds))
    columns = [list(zip(*found, strict=True)) for found in (weighed, meals, cooling, gravid)]
    return [*columns, laid, sheds, sorted(rows.checked)]


def _from_kept(kept: list[Any]) -> Rows:
    weighed, meals, cooling, gravid = (list(zip(*found, strict=True)) for found in kept[:4])
    laid, sheds, checked = kept[4:]
    return Rows(weighed, meals, laid, sheds, cooling, gravid, set(checked))
