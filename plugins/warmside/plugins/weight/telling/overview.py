"""All animals here with their weights, a line each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import Cell, Column, Kind, Table, Unit
from warmside.plugins.weight.course.standing import Standing

COLUMNS = (
    Column("animal", "who"),
    Column("code", "code", Kind.CODE, text=False),
    Column("weighed", "weighed", Kind.DATE),
    Column("mass", "mass", Unit.MASS),
    Column("expected", "expected now", Unit.MASS),
    Column("centile", "centile", Unit.RATIO),
    Column("z", "z", Unit.RATIO, text=False),
    Column("notes", "note", Kind.LIST),
)


def overview(found: Iterable[Standing]) -> Table:
    """Animals that were ever weighed, a line each."""
    empty = "no weight on record; record one: warmside record weighed ANIMAL=412g"
    return Table("animals", COLUMNS, tuple(map(_line, found)), empty=empty)


def _line(it: Standing) -> tuple[Cell, ...]:
    animal, found = it.weights.animal, it.score
    return (
        animal.label,
        animal.code,
        it.last_day,
        it.weights.sound.masses_g[-1],
        it.expected(),
        round(found.centile, 1) if found else None,
        found.z if found else None,
        tuple(_notes(it)),
    )


def _notes(it: Standing) -> Iterator[str]:
    for sign in it.signs:
        yield sign.sign.value.split(".")[1].replace("-", " ")
    if it.doubts:
        yield "in doubt"
