"""The references of one collection, and the one that an animal is held to."""

from __future__ import annotations

import json
from collections import defaultdict

from warmside.api import Animal, Book, Mark, NotFound, Source, near_miss, quoted
from warmside.plugins.weight.lms.held import Assigned, Held, Key, Ranges, Stored, held_to
from warmside.plugins.weight.lms.lms import LmsCurve


def references(book: Book) -> dict[int, Stored]:
    """The references by number, in the order of their names."""
    return book.once(("weight", "references"), lambda: _references(book))


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
    return held_to(stored, line, animal.sex, animal.species.scientific)


def assignments(book: Book) -> Assigned:
    """The reference (None for none at all) and line that the keeper chose, by animal."""
    return book.once(("weight", "assigned"), lambda: _assignments(book))


def curve_keys(book: Book, reference_id: int) -> list[Key]:
    """Sex and line of each curve of a reference."""
    query = "SELECT sex, line FROM weight_curve WHERE reference_id = ?"
    return [(sex, line) for sex, line in book.rows(query, (reference_id,))]


def _assignments(book: Book) -> Assigned:
    rows = book.rows("SELECT animal_id, reference_id, line FROM weight_assigned")
    return {animal: (id, line) for animal, id, line in rows}


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
    heads = book.rows(
        "SELECT id, name, species, source, mark, licence, made_from "
        "FROM weight_reference ORDER BY name"
    )
    if not heads:
        return {}
    from warmside.plugins.weight.lms.reference_table import Reference  # late: few rounds need it

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
    curves: dict[int, dict[Key, LmsCurve]] = defaultdict(dict)
    ranges: dict[int, dict[Key, Ranges]] = defaultdict(dict)
    for id, sex, line, points, spread in book.rows(
        "SELECT reference_id, sex, line, points, ranges FROM weight_curve"
    ):
        curves[id][sex, line] = LmsCurve(*map(tuple, zip(*json.loads(points), strict=True)))
        ranges[id][sex, line] = {
            float(centile): tuple(map(tuple, pairs))
            for centile, pairs in json.loads(spread).items()
        }
    return curves, ranges
