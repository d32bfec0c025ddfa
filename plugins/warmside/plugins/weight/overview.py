"""All animals here with their weights, a line each."""

from __future__ import annotations

from datetime import date

from warmside.api import Answer, Book, Cell, Column, Kind, Table, Unit
from warmside.plugins.weight.expecting import expected, weights_for
from warmside.plugins.weight.judging import doubts_of
from warmside.plugins.weight.noticed import series_of, signs_of
from warmside.plugins.weight.reading import limits_of, recent
from warmside.plugins.weight.stored import held
from warmside.plugins.weight.telling import Told

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


def overview(book: Book, on: date) -> Answer:
    """The animals here that were ever weighed."""
    rows = [_line(book, a, on) for a in book.animals_here(on)]
    empty = "no weight on record; record one: warmside record weighed ANIMAL=412g"
    table = Table("animals", COLUMNS, tuple(r for r in rows if r is not None), empty=empty)
    return Answer(f"Weights, as of {on}", (table,))


def _line(book: Book, animal_id: int, on: date) -> tuple[Cell, ...] | None:
    weights = weights_for(book, animal_id, on)
    animal = book.animals[animal_id]
    if not len(weights.sound):
        return None
    it = Told(book, weights, held(book, animal), limits_of(book), on)
    found = it.score
    notes = [
        s.sign.value.split(".")[1].replace("-", " ")
        for s in signs_of(weights, it.reference, it.limits)
    ]
    if doubts_of(weights, series_of(recent(book, on))):
        notes.append("in doubt")
    return (
        animal.label,
        animal.code,
        it.last_day,
        weights.sound.masses_g[-1],
        expected(weights, on),
        round(found.centile, 1) if found else None,
        found.z if found else None,
        tuple(notes),
    )
