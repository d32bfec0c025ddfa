"""`warmside feeding foods`: the classes of food with mass, length, energy and source."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Basis, Cell, Column, Estimate, Kind, NotFound, Table, Unit, quoted
from warmside.plugins.feeding.prey.classes import Prey, classes_meant, prey_classes

COLUMNS = (
    Column("food", "class", Kind.CODE),
    Column("name", "name"),
    Column("mass", "one weighs", Unit.MASS),
    Column("length", "long", Unit.LENGTH),
    Column("kcal_per_g", "kcal per g", Unit.RATIO),
    Column("words", "also written", Kind.LIST, text=False),
    Column("source", "source of the energy", text=False),
    Column("mark", "mark", text=False),
)


def foods(
    word: Annotated[
        str | None, typer.Argument(help="A kind, a nature or a word: mouse, insect, fuzzies.")
    ] = None,
) -> Answer:
    """The classes of food that meals are planned and recorded with."""
    wanted = (word or "").strip().lower()
    of_kind = [p for p in prey_classes().values() if wanted in ("", p.kind, p.nature)]
    found = of_kind or list(classes_meant(wanted))
    if not found:
        raise NotFound(f"no food is called {quoted(wanted)!r}; list all: warmside feeding foods")
    return Answer("Classes of food", (Table("foods", COLUMNS, tuple(map(_row, found))),))


def _row(prey: Prey) -> tuple[Cell, ...]:
    mass = Estimate(None, *prey.mass_g, Unit.MASS, Basis("class by mass", prey.mass_source))
    return (
        prey.code,
        prey.name,
        None if prey.weighed else mass,
        _length(prey),
        prey.kcal_per_g,
        prey.words,
        prey.energy_source.text,
        prey.energy_source.mark.value,
    )


def _length(prey: Prey) -> Estimate | None:
    if prey.length_mm is None:
        return None
    return Estimate(None, *prey.length_mm, Unit.LENGTH, Basis("usual length", prey.mass_source))
