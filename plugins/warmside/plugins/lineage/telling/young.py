"""The young of a clutch as they were entered, and how odd they look for their parents."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    About,
    Answer,
    Ask,
    Clutch,
    Column,
    Fact,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    counted,
    paragraphs,
)
from warmside.plugins.lineage.reading.eggs import incubation

COLUMNS = (
    Column("code", "code", Kind.CODE),
    Column("name", "name"),
    Column("sex", "sex"),
    Column("mass", "mass", Unit.MASS),
    Column("looks", "looks"),
)
ODD = 0.05
CARE = (
    "Each in a small, escape-proof box of its own with a hide, water and a warm side on a "
    "thermostat; no food before the first shed. One that is weak, bloated or with a large yolk "
    "outside is for a vet (common practice, no source)."
)


def hatched_told(ask: Ask, clutch: Clutch, made: Sequence[int], on: date) -> Answer:
    """The young with what was seen of each, what is left, and odd counts."""
    found = incubation(ask, clutch, on)
    rows = tuple(_row(ask, id) for id in made)
    parts: list[Part] = [
        Fact("clutch", "clutch", clutch.code, Kind.CODE),
        Fact("hatched", "hatched", len(made), Unit.COUNT),
        Table("young", COLUMNS, rows, "Young", "none was born alive"),
    ]
    left = found.eggs.left
    if left and clutch.laid != clutch.hatched_first:
        parts.insert(2, Fact("left", "eggs left", left, Unit.COUNT))
    parts += paragraphs(*odd_words(ask, clutch, made, on), tone=Tone.CAUTION)
    parts += paragraphs(CARE, tone=Tone.CAUTION) if made else ()
    parts += paragraphs("warmside undo (take it back)", tone=Tone.HINT)
    what = counted(len(made), "young", "young")
    return Answer(f"{what} of clutch {clutch.code}", tuple(parts))


def _row(ask: Ask, id: int) -> tuple[str | float | None, ...]:
    animal = ask.book.animals[id]
    told = ask.book.latest_of(id, "weighed", "looks")
    weighed, looks = told.get("weighed"), told.get("looks")
    return (
        animal.code,
        animal.name,
        animal.sex,
        weighed.data["mass_g"] if weighed else None,
        looks.data["says"] if looks else None,
    )


def odd_words(ask: Ask, clutch: Clutch, made: Sequence[int], on: date) -> Iterator[str]:
    """Traits of which the counts are odd for the parents, as a plugin that knows genes answers."""
    for answered in ask.answers("clutch odds", About(made[0]), on) if made else ():
        given = answered.estimate
        if given.value is not None and given.value < ODD:
            yield (
                f"{given.basis.rule}: counts as odd come by luck in {100 * given.value:.2g} % of "
                f"clutches, so what was stated of a parent may be doubtful; see: "
                f"warmside genes clutch {clutch.code}"
            )
