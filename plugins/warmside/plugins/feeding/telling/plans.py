"""The plans of many animals in one table."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.api import Cell, Column, Kind, Table, Unit
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.planning.whole import PartPlan, whole_plan
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.plan import no_row

COLUMNS = (
    Column("animal", "who", Kind.CODE),
    Column("name", "name", text=False),
    Column("due_from", "from", Kind.DATE),
    Column("due_by", "by", Kind.DATE),
    Column("feed", "feed"),
    Column("why", "why"),
    Column("part", "part", Kind.CODE, text=False),
    Column("prey", "prey", Kind.CODE, text=False),
    Column("count", "count", Unit.COUNT, text=False),
    Column("mass", "mass", Unit.MASS, text=False),
    Column("meal", "meal", Unit.MASS, text=False),
    Column("interval", "interval", Unit.DAYS, text=False),
    Column("dust", "dust", Kind.CODE, text=False),
    Column("waits", "waits", Kind.LIST, text=False),
)
_NOT_PLANNED: tuple[Cell, ...] = (None, None, "–")
_NOTHING: tuple[Cell, ...] = (None,) * 7


def all_parts(reading: Reading, ids: Sequence[int]) -> tuple[Table, tuple[Species, ...]]:
    """The plans of many animals, soonest first, and the species among them."""
    reading.load(ids)
    known = [(i, s) for i in ids if (s := reading.subject(i))]
    plans = [(i, p) for i, s in known for p in whole_plan(s, reading.on, reading.rules)]
    plans.sort(key=lambda p: (p[1].plan.due_from is None, p[1].plan.due_from or date.max))
    rows = [_all_row(reading, i, part) for i, part in plans]
    planned = {i for i, _ in known}
    rows += [_unknown_row(reading, i) for i in ids if i not in planned]
    table = Table("plans", COLUMNS, tuple(rows), empty="no animal is here")
    return table, tuple({s.species.latin: s.species for _, s in known}.values())


def _all_row(reading: Reading, animal_id: int, part: PartPlan) -> tuple[Cell, ...]:
    animal, found = reading.book.animals[animal_id], part.plan
    if (told := part.subject.situation.told) is not None:
        return (animal.code, animal.name, *_NOT_PLANNED, told.rule, *_NOTHING, ("in-treatment",))
    best = found.fits[0] if found.fits else None
    return (
        animal.code,
        animal.name,
        found.due_from,
        found.due_by,
        best.words(reading.rules) if best else part.words or "–",
        found.words[0] if found.words else "",
        part.key,
        best.prey.code if best else None,
        best.count if best else None,
        found.mass.mass if found.mass else None,
        found.meal,
        found.interval,
        found.dust.code if found.dust else None,
        tuple(w.code for w in found.waits),
    )


def _unknown_row(reading: Reading, animal_id: int) -> tuple[Cell, ...]:
    animal = reading.book.animals[animal_id]
    said = no_row(animal.species.scientific).partition(":")[0]
    return (animal.code, animal.name, *_NOT_PLANNED, said, *_NOTHING, ())
