"""Events as the file holds them: their columns, and the queries that find them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, datetime
from typing import Any

from msgspec.json import decode

from warmside.core.record.entities import Event

EVENT_COLUMNS = "id, kind, animal_id, enclosure_id, day, at, data, note, step_id, replaced_by"
Query = tuple[str, list[Any]]


def event_from(row: tuple[Any, ...]) -> Event:
    """An event from its columns in the order of EVENT_COLUMNS."""
    id, kind, animal_id, enclosure_id, day, at, data, note, step_id, replaced_by = row
    return Event(
        id,
        kind,
        animal_id,
        enclosure_id,
        date.fromisoformat(day),
        datetime.fromisoformat(at) if at else None,
        decode(data),
        note,
        step_id,
        replaced_by,
    )


def events_query(
    kinds: tuple[str, ...],
    animal: int | None,
    enclosure: int | None,
    since: date | None,
    until: date | None,
    corrected: bool,
) -> Query:
    """Events of these kinds (of all, if none is named), oldest first, both days included."""
    if kinds and not corrected and (animal, enclosure) == (None, None):
        return _of_kinds_query(kinds, since, until)
    wanted = [] if corrected else ["replaced_by IS NULL"]
    values: list[Any] = []
    for clause, value in (
        ("animal_id = ?", animal),
        ("enclosure_id = ?", enclosure),
        ("day >= ?", since and since.isoformat()),
        ("day <= ?", until and until.isoformat()),
    ):
        if value is not None:
            wanted.append(clause)
            values.append(value)
    if kinds:
        wanted.append(f"kind IN ({marks(kinds)})")
        values += kinds
    where = f" WHERE {' AND '.join(wanted)}" if wanted else ""
    return f"SELECT {EVENT_COLUMNS} FROM event{where} ORDER BY day, at, id", values


def _of_kinds_query(kinds: tuple[str, ...], since: date | None, until: date | None) -> Query:
    """All events of a few kinds: by the index of animals, in which rows without one stand, too.

    By day alone all of a year would be read for a kind that is rare.
    """
    days = [("day >= ?", since), ("day <= ?", until)]
    clauses = "".join(f" AND {clause}" for clause, day in days if day is not None)
    parts = [
        f"SELECT {EVENT_COLUMNS} FROM event WHERE replaced_by IS NULL AND {whom} "
        f"AND kind IN ({marks(kinds)}){clauses}"
        for whom in ("animal_id IN (SELECT id FROM who)", "animal_id IS NULL")
    ]
    sql = f"WITH RECURSIVE {who('animal')} {' UNION ALL '.join(parts)} ORDER BY day, at, id"
    return sql, [*kinds, *(day.isoformat() for _, day in days if day is not None)] * 2


def who(subject: str) -> str:
    """The animals or enclosures that have events, as a table `who`.

    It leaps from one to the next along the index: ten thousand ancestors without events, and
    hundreds of thousands of events, cost nothing.
    """
    of = f"{subject}_id"
    live = f"replaced_by IS NULL AND {of} IS NOT NULL"  # the index holds these alone
    return (
        f"who(id) AS (SELECT min({of}) FROM event WHERE {live} UNION ALL "
        f"SELECT (SELECT min({of}) FROM event WHERE {of} > who.id AND {live}) FROM who "
        "WHERE who.id IS NOT NULL)"
    )


def latest_query(subject: str, kinds: Sequence[str], on: date, one: int | None = None) -> Query:
    """The last event of each kind up to a day, for each `animal` or `enclosure`, or for one.

    20 times faster than GROUP BY.
    """
    whom = "who" if one is None else f"(SELECT {int(one)} AS id)"
    columns = ", ".join(f"e.{c.strip()}" for c in EVENT_COLUMNS.split(","))
    sql = (
        f"WITH RECURSIVE k(kind) AS (VALUES {', '.join(['(?)'] * len(kinds))}), {who(subject)} "
        f"SELECT {columns} FROM {whom} s CROSS JOIN k "
        "JOIN event e ON e.id = (SELECT x.id FROM event x "
        f"WHERE x.{subject}_id = s.id AND x.kind = k.kind AND x.replaced_by IS NULL "
        "AND x.day <= ? ORDER BY x.day DESC, x.at DESC, x.id DESC LIMIT 1)"
    )
    return sql, [*kinds, on.isoformat()]


def placed_query(kinds: Sequence[str], enclosure: int, until: date) -> Query:
    """(animal id) of those that were ever put into an enclosure, up to a day."""
    sql = (
        f"SELECT DISTINCT animal_id FROM event WHERE enclosure_id = ? AND kind IN ({marks(kinds)}) "
        "AND replaced_by IS NULL AND day <= ?"
    )
    return sql, [enclosure, *kinds, until.isoformat()]


def newest_query(kind: str, animals: Collection[int], on: date, most: int) -> Query:
    """(animal id, day, data, event id) of at most `most` events of a kind for each animal."""
    sql = (
        "SELECT e.animal_id, e.day, e.data, e.id FROM animal a JOIN event e ON e.id IN ("
        "SELECT x.id FROM event x WHERE x.animal_id = a.id AND x.kind = ? "
        "AND x.replaced_by IS NULL AND x.day <= ? "
        "ORDER BY x.day DESC, x.at DESC, x.id DESC LIMIT ?) "
        f"WHERE a.id IN ({marks(animals)})"
    )
    return sql, [kind, on.isoformat(), most, *animals]


def marks(values: Collection[Any]) -> str:
    """As many question marks as there are values, for IN (…)."""
    return ", ".join("?" * len(values))
