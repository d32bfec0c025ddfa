"""The references of one collection, and the one that an animal is held to."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from sqlalchemy import select

from warmside.api import Animal, BadInput, Book, Mark, NotFound, Source, near_miss, quoted
from warmside.plugins.weight import tables
from warmside.plugins.weight.lms import LmsCurve

if TYPE_CHECKING:
    from warmside.plugins.weight.reference_table import Reference

Ranges = Mapping[float, tuple[tuple[float, float], ...]]

Key = tuple[str, str]  # sex and line
Assigned = Mapping[int, tuple[int | None, str]]

_read: WeakKeyDictionary[Book, dict[int, Stored]] = WeakKeyDictionary()
_assigned: WeakKeyDictionary[Book, Assigned] = WeakKeyDictionary()


@dataclass(frozen=True, slots=True)
class Stored:
    """A reference with its name; `ranges` are those of fitted centiles, by sex and line.

    They give for a centile the lowest and highest mass in g at each age of the curve.
    """

    id: int
    name: str
    reference: Reference
    made_from: str
    ranges: Mapping[tuple[str, str], Ranges]


@dataclass(frozen=True, slots=True)
class Held:
    """The reference that an animal is held to, and its curve."""

    stored: Stored
    curve: LmsCurve

    @property
    def source(self) -> Source:
        """The reference's name before what it says of its source."""
        source = self.stored.reference.source
        return Source(f"{self.stored.name}, {source.text}", source.mark)


def references(book: Book) -> dict[int, Stored]:
    """The references by number, in the order of their names; read once for a book."""
    if book not in _read:
        _read[book] = _references(book)
    return _read[book]


def named(book: Book, name: str) -> Stored:
    """The reference of that name; near misses are suggested."""
    known = {one.name.casefold(): one for one in references(book).values()}
    if name.strip().casefold() in known:
        return known[name.strip().casefold()]
    hint = near_miss(name, [one.name for one in known.values()])
    raise NotFound(
        f"there is no reference {quoted(name)}{hint}; list them with: warmside weight reference "
        "list"
    )


def held(book: Book, animal: Animal) -> Held | None:
    """What an animal is held to: the one assigned, else the only one of its species.

    None where there is none, or none with a curve for its sex.
    """
    stored, line = _chosen(book, animal)
    if stored is None:
        return None
    try:
        curve = stored.reference.curve(animal.sex, line, animal.species.scientific)
    except BadInput:
        return None
    return Held(stored, curve)


def assignments(book: Book) -> Assigned:
    """The reference (None for none at all) and line that the keeper chose, by animal."""
    if book not in _assigned:
        c = tables.assigned.c
        rows = book.rows(select(c.animal_id, c.reference_id, c.line))
        _assigned[book] = {animal: (id, line) for animal, id, line in rows}
    return _assigned[book]


def _chosen(book: Book, animal: Animal) -> tuple[Stored | None, str]:
    known = references(book)
    if not known:
        return None, ""
    assigned = assignments(book)
    if animal.id in assigned:
        id, line = assigned[animal.id]
        return (known.get(id) if id is not None else None), line
    species = animal.species.scientific.casefold()
    mine = [s for s in known.values() if s.reference.species.casefold() == species]
    return (mine[0] if len(mine) == 1 else None), ""


def _references(book: Book) -> dict[int, Stored]:
    r = tables.reference.c
    columns = (r.id, r.name, r.species, r.source, r.mark, r.licence, r.made_from)
    heads = book.rows(select(*columns).order_by(r.name))
    if not heads:
        return {}
    from warmside.plugins.weight.reference_table import Reference  # late: few rounds need it

    curves, ranges = _curves(book)
    return {
        id: Stored(
            id,
            name,
            Reference(species, Source(source, Mark(mark)), licence, curves[id]),
            made_from,
            ranges[id],
        )
        for id, name, species, source, mark, licence, made_from in heads
    }


def _curves(
    book: Book,
) -> tuple[dict[int, dict[Key, LmsCurve]], dict[int, dict[Key, Ranges]]]:
    """The curves, and the ranges of their centiles, by reference and by sex and line."""
    c = tables.curve.c
    curves: dict[int, dict[Key, LmsCurve]] = defaultdict(dict)
    ranges: dict[int, dict[Key, Ranges]] = defaultdict(dict)
    for id, sex, line, points, spread in book.rows(
        select(c.reference_id, c.sex, c.line, c.points, c.ranges)
    ):
        curves[id][sex, line] = LmsCurve(*map(tuple, zip(*json.loads(points), strict=True)))
        ranges[id][sex, line] = {
            float(centile): tuple(map(tuple, pairs))
            for centile, pairs in json.loads(spread).items()
        }
    return curves, ranges
