"""The events of sheds as an animal's rows, all of them or the newest alone."""

from __future__ import annotations

import functools
import json
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import Any, NamedTuple

from warmside.api import Animal, Book, Event
from warmside.plugins.shed.cycles.aftermath import Aftermath, Look
from warmside.plugins.shed.cycles.animal import Rows
from warmside.plugins.shed.cycles.cycle import Seen, Stage
from warmside.plugins.shed.cycles.shipped import eats_slough
from warmside.plugins.shed.kinds import CHECKED, LEFT_ON, PREPARED

STAGE_KINDS = ("shed", "shedding")
KINDS = (*STAGE_KINDS, CHECKED, PREPARED)
EVENTS = tuple(f"event:{kind}" for kind in KINDS)
_STAGES = {str(stage): stage for stage in Stage}
RECENT = 24
"""So many newest events of a kind are read for each animal, so that no round grows with the years.

More than three cycles in the months for which doubts stand, even where every day of a stage is
noted.
"""
ENOUGH_DAYS, ENOUGH_SHEDS = 180, 4
"""Of these, a round needs those of the last half year, and at least back to the fourth last shed.

Doubts stand for 90 days and are found from the cycle before; skin left on is told of two sheds
running, each of which may be on record twice.
"""


class Noted(NamedTuple):
    """What one event says: its kind, local day, data, and its id."""

    kind: str
    day: date
    data: Mapping[str, Any]
    event: int


def noted(found: Event) -> Noted:
    """What an event says."""
    return Noted(found.kind, found.day, found.data, found.id)


def newest(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Noted]]:
    """The newest events up to a day, by animal; only of those that have any. Kept across runs."""

    def make(ids: Sequence[int]) -> dict[int, list[Noted]]:
        return {id: enough(mine) for id, mine in _newest(book, ids, on).items()}

    each = dict.fromkeys(ids)
    return book.derived_each("shed.newest", on, each, EVENTS, make, list[Noted])


def _newest(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Noted]]:
    found = defaultdict[int, list[Noted]](list)
    for kind in KINDS:
        for animal_id, day, data, id in book.newest(kind, ids, on, RECENT):
            found[animal_id].append(Noted(kind, day, dict(data), id))
    return found


def enough(mine: Sequence[Noted]) -> list[Noted]:
    """Those of an animal's newest events that a round needs."""
    sheds = sorted((n.day for n in mine if n.kind == "shed"), reverse=True)[:ENOUGH_SHEDS]
    since = max(n.day for n in mine) - timedelta(days=ENOUGH_DAYS)
    first = min([since, *sheds])
    return [n for n in mine if n.day >= first]


def sights(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Seen]]:
    """All stages and sheds up to a day, by animal; only of those that have any."""
    found = defaultdict[int, list[Seen]](list)
    days = functools.cache(date.fromisoformat)
    told = functools.cache(lambda data: _STAGES[json.loads(data)["stage"]])
    query = (
        f"SELECT animal_id, day, id{{}} FROM event WHERE animal_id IN ({', '.join('?' * len(ids))})"
        " AND kind = ? AND day <= ? AND replaced_by IS NULL"
    )
    shed = Stage.SHED
    for animal_id, day, id in book.rows(query.format(""), [*ids, "shed", on.isoformat()]):
        found[animal_id].append(Seen(days(day), shed, id))
    staged = book.rows(query.format(", data"), [*ids, "shedding", on.isoformat()])
    for animal_id, day, id, data in staged:
        found[animal_id].append(Seen(days(day), told(data), id))
    return found


def rows_of(animal: Animal, mine: Sequence[Noted]) -> Rows:
    """The rows of one animal from what is noted of it."""
    return Rows(
        animal.id,
        animal.code,
        animal.name,
        eats_slough((animal.species.scientific,)),
        seen_in(mine),
        tuple(_aftermath(n) for n in mine if n.kind == "shed"),
        tuple(_look(n) for n in mine if n.kind == CHECKED),
        tuple(n.day for n in mine if n.kind == PREPARED),
    )


def seen_in(mine: Iterable[Noted]) -> tuple[Seen, ...]:
    """The stages and sheds among what is noted."""
    shed = Stage.SHED
    return tuple(
        [
            Seen(day, shed if kind == "shed" else _STAGES[data["stage"]], event)
            for kind, day, data, event in mine
            if kind in STAGE_KINDS
        ]
    )


def _aftermath(shed: Noted) -> Aftermath:
    _, day, data, event = shed
    retained = tuple(data["retained"])
    return Aftermath(day, data["outcome"], retained, retained, None, data["slough_mm"], (event,))


def _look(look: Noted) -> Look:
    left_on = look.data["found"] == LEFT_ON
    return Look(look.day, left_on, tuple(look.data["where"]), look.event)
