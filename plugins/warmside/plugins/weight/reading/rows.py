"""The rows of weighings, meals, sheds, clutches and marks of animals, as plain numbers.

Only the columns that are needed are read, since an event costs four times a row.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Collection, Mapping
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
    zone = book.home.zone
    span = (since or date.min).isoformat(), until.isoformat()
    for kind in kinds:
        add = _ADDING[kind]
        said = "NULL" if kind in _WITHOUT_DATA else "data"  # without, the index alone is read
        query = (
            f"SELECT animal_id, id, day, at, {said} FROM event WHERE animal_id IN ({_marks(ids)}) "
            "AND kind = ? AND replaced_by IS NULL AND day >= ? AND day <= ?"
        )
        for animal_id, id, day, at, data in book.rows(query, (*ids, kind, *span)):
            add(found[animal_id], id, _moment(day, at, zone), at, data)
    return found


def _marks(values: Collection[Any]) -> str:
    return ", ".join("?" * len(values))


def _weighed(rows: Rows, id: int, day: float, at: str | None, data: str) -> None:
    rows.weighed.append((id, day, _told(data)["mass_g"]))


def _fed(rows: Rows, id: int, day: float, at: str | None, data: str) -> None:
    """A meal without a time counts as after that day's weighing (common practice, no source)."""
    eaten_g, when = _eaten_g(data), day if at else day + END_OF_DAY
    if eaten_g is not None:
        rows.meals.append((when, eaten_g))
    else:
        rows.refused.append(when)


def _laid(rows: Rows, id: int, day: float, at: str | None, data: None) -> None:
    rows.laid.append(day)


def _shed(rows: Rows, id: int, day: float, at: str | None, data: None) -> None:
    rows.sheds.append(day)


def _checked(rows: Rows, id: int, day: float, at: str | None, data: str) -> None:
    rows.checked.add(_told(data)["weighing"])


def _cooling(rows: Rows, id: int, day: float, at: str | None, data: str) -> None:
    rows.cooling.append((day, _told(data)["state"] in _BEGUN))


def _gravid(rows: Rows, id: int, day: float, at: str | None, data: str) -> None:
    rows.gravid.append((day, _told(data)["state"] in _BEGUN))


@lru_cache(4096)
def _eaten_g(data: str) -> float | None:
    """What was eaten of a meal, in g; None where nothing was.

    Of a meal that was taken in part, half counts. One whose mass is not on record weighs 0.
    """
    told = _told(data)
    share = {"taken": 1.0, "part taken": _PARTLY}.get(told["outcome"], 0.0)
    return share * (told["mass_g"] or 0.0) if share else None


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


_WITHOUT_DATA = ("laid", "shed")
_ADDING: Mapping[str, Callable[..., None]] = {
    "weighed": _weighed,
    "fed": _fed,
    "shed": _shed,
    "laid": _laid,
    "cooling": _cooling,
    "gravid": _gravid,
    CHECKED: _checked,
}
