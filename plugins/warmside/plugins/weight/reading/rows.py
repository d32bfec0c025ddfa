"""The rows of weighings, meals, sheds, clutches and marks of animals, as plain numbers.

Only the columns that are needed are read, since an event costs four times a row.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from datetime import UTC, date, datetime, time
from functools import lru_cache
from types import MappingProxyType
from typing import Any
from zoneinfo import ZoneInfo

from warmside.api import Book
from warmside.plugins.weight.course.series import END_OF_DAY
from warmside.plugins.weight.course.weights import Rows
from warmside.plugins.weight.kinds import CHECKED

KINDS = ("weighed", "fed", "shed", "laid", "cooling", "gravid", CHECKED)
_BEGUN = {"begun", "suspected", "confirmed"}
_PARTLY = 0.5


def rows_of(
    book: Book, ids: Collection[int], kinds: tuple[str, ...], since: date | None, until: date
) -> dict[int, Rows]:
    """The rows of animals between two days, by animal."""
    found: dict[int, Rows] = defaultdict(Rows)
    query = (
        "SELECT animal_id, kind, id, day, at, data FROM event "
        f"WHERE animal_id IN ({_marks(ids)}) AND kind IN ({_marks(kinds)}) "
        "AND replaced_by IS NULL AND day >= ? AND day <= ?"
    )
    first = (since or date.min).isoformat()
    zone = book.home.zone
    for animal_id, kind, id, day, at, data in book.rows(
        query, (*ids, *kinds, first, until.isoformat())
    ):
        _add(found[animal_id], kind, id, _moment(day, at, zone), at, _told(data))
    return found


def _marks(values: Collection[Any]) -> str:
    return ", ".join("?" * len(values))


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


@lru_cache(4096)
def _told(data: str) -> Mapping[str, Any]:
    """What an event says; only read, since the same is said again and again."""
    return MappingProxyType(json.loads(data))


@lru_cache(4096)
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
