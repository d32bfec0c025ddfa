"""The weighings from the record: those of the last year of all animals here, read once for a book.

Only the columns that are needed are read, since an event costs four times a row.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from typing import Any
from weakref import WeakKeyDictionary
from zoneinfo import ZoneInfo

from sqlalchemy import select

from warmside.api import Book
from warmside.core.record.tables import event
from warmside.plugins.weight.kinds import CHECKED
from warmside.plugins.weight.limits import Limits
from warmside.plugins.weight.weights import WINDOW_DAYS, Rows, Weights, made_ready

OLD_DAYS = 400
"""A last weighing older than this is not judged: the task to weigh says all there is to say."""

KINDS = ("weighed", "fed", "shed", "laid", "cooling", "gravid", CHECKED)
_BEGUN = {"begun", "suspected", "confirmed"}
END_OF_DAY = 0.999
_PARTLY = 0.5

_recent: WeakKeyDictionary[Book, dict[date, dict[int, Weights]]] = WeakKeyDictionary()
_whole: WeakKeyDictionary[Book, dict[int, Weights]] = WeakKeyDictionary()


def limits_of(book: Book) -> Limits:
    """The thresholds with the keeper's settings."""
    s = book.settings("weight")
    return Limits(
        s["acute_loss"] / 100,
        s["acute_days"],
        s["chronic_loss"] / 100,
        s["chronic_days"],
        s["channel_shift"],
        s["stall_gain"] / 100,
        s["stall_days"],
        s["fast_gain"] / 100,
        s["fast_days"],
        s["digestion_days"],
        book.home.display,
    )


def recent(book: Book, on: date) -> Mapping[int, Weights]:
    """The last year's weighings of each animal here that was weighed within OLD_DAYS, as of a day.

    For a day to come, what is on record today.
    """
    seen = min(on, book.today)
    known = _recent.setdefault(book, {})
    if seen not in known:
        known[seen] = _read_recent(book, seen)
    return known[seen]


def whole(book: Book, animal_id: int, on: date) -> Weights:
    """All weighings of one animal up to a day."""
    known = _whole.setdefault(book, {})
    if on < book.today:
        return _of_one(book, animal_id, on)
    if animal_id not in known:
        known[animal_id] = _of_one(book, animal_id, on)
    return known[animal_id]


def rows_of(
    book: Book, ids: Collection[int], kinds: tuple[str, ...], since: date | None, until: date
) -> dict[int, Rows]:
    """The rows of animals between two days, by animal."""
    c = event.c
    query = select(c.animal_id, c.kind, c.id, c.day, c.at, c.data).where(
        c.animal_id.in_(ids),
        c.kind.in_(kinds),
        c.replaced_by.is_(None),
        c.day >= (since or date.min).isoformat(),
        c.day <= until.isoformat(),
    )
    found: dict[int, Rows] = defaultdict(Rows)
    zone = book.home.zone
    for animal_id, kind, id, day, at, data in book.rows(query):
        _add(found[animal_id], kind, id, _moment(day, at, zone), at, json.loads(data))
    return found


def _read_recent(book: Book, seen: date) -> dict[int, Weights]:
    limits = limits_of(book)
    last = book.latest("weighed", on=seen)["weighed"]
    fresh = [
        a for a in book.animals_here(seen) if a in last and (seen - last[a].day).days <= OLD_DAYS
    ]
    if not fresh:
        return {}
    window = max(WINDOW_DAYS, limits.chronic_days + 15)
    since = min(last[a].day for a in fresh) - timedelta(days=round(window) + 1)
    rows = rows_of(book, fresh, KINDS, since, seen)
    days = limits.digestion_days
    return {a: made_ready(book.animals[a], rows[a], days, window) for a in fresh}


def _of_one(book: Book, animal_id: int, on: date) -> Weights:
    rows = rows_of(book, [animal_id], KINDS, None, on).get(animal_id, Rows())
    days = limits_of(book).digestion_days
    return made_ready(book.animals[animal_id], rows, days, None)


def _add(
    rows: Rows, kind: str, id: int, day: float, at: str | None, data: Mapping[str, Any]
) -> None:
    if kind == "weighed":
        rows.weighed.append((id, day, data["mass_g"]))
    elif kind == "fed":
        rows.meals += _meal(day, at, data)
    elif kind == "laid":
        rows.laid.append(day)
    elif kind == "shed":
        rows.sheds.append(day)
    elif kind == CHECKED:
        rows.checked.add(data["weighing"])
    else:
        marks = rows.cooling if kind == "cooling" else rows.gravid
        marks.append((day, data["state"] in _BEGUN))


def _meal(day: float, at: str | None, data: Mapping[str, Any]) -> Iterator[tuple[float, float]]:
    """A meal without a time counts as after that day's weighing (common practice, no source).

    Of a meal that was taken in part, half counts. One whose mass is not on record weighs 0.
    """
    share = {"taken": 1.0, "part taken": _PARTLY}.get(data["outcome"], 0.0)
    if share:
        yield (day if at else day + END_OF_DAY, share * (data["mass_g"] or 0.0))


def _moment(day: str, at: str | None, zone: ZoneInfo) -> float:
    """The day as an ordinal, with the part of it that had passed on the home clock."""
    ordinal, midnight = _midnight(day, zone)
    if at is None:
        return float(ordinal)
    passed = (datetime.fromisoformat(at) - midnight).total_seconds() / 86_400
    return ordinal + min(max(passed, 0.0), END_OF_DAY)


@lru_cache(4096)
def _midnight(day: str, zone: ZoneInfo) -> tuple[int, datetime]:
    local = date.fromisoformat(day)
    return local.toordinal(), datetime.combine(local, time(), zone).astimezone(UTC)
