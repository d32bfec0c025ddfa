"""`warmside feeding species`: how species are fed, by the shipped table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Annotated

import typer

from warmside.api import Answer, Cell, Column, Fact, Kind, NotFound, Table, Unit, Words, session_of
from warmside.plugins.feeding.care.cautions import cautions
from warmside.plugins.feeding.care.own import spelled
from warmside.plugins.feeding.care.species import (
    Species,
    Stage,
    group_rows,
    species_for,
    species_rows,
)
from warmside.plugins.feeding.telling.plan import cautioned, no_row

COLUMNS = (
    Column("species", "species", Kind.LATIN),
    Column("common", "name", text=False),
    Column("adult_from", "adult from", Unit.MASS),
    Column("meal", "adult meal, % of mass"),
    Column("interval", "adult interval, days"),
    Column("diet", "eats"),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)
STAGE_COLUMNS = (
    Column("stage", "stage"),
    Column("from", "from", Unit.MASS),
    Column("meal", "meal, % of mass"),
    Column("interval", "interval, days"),
    Column("growth", "growth, % a week"),
    Column("plants", "plants, % of the meal"),
)


def species(
    context: typer.Context,
    name: Annotated[str | None, typer.Argument(help="Scientific or common name.")] = None,
) -> Answer:
    """The species table, or one species in full."""
    if name is None:
        groups = {s.common: s for s in group_rows().values()}
        rows = tuple(_row(s) for s in (*species_rows().values(), *groups.values()))
        return Answer("How species are fed", (Table("species", COLUMNS, rows), *_notes(rows)))
    with session_of(context).read() as book:
        known = book.species_named(name)
    found = species_for(known.scientific, known.group)
    if found is None:
        raise NotFound(no_row(known.scientific))
    return Answer(
        f"How {known.common} is fed",
        (*_facts(found), _stages(found), *cautioned(cautions(found, known.group))),
    )


def _notes(rows: tuple[tuple[Cell, ...], ...]) -> tuple[Words, ...]:
    marks = Counter(str(row[-1]) for row in rows)
    told = ", ".join(f"{mark} ({n})" for mark, n in marks.most_common())
    return (
        Words("a species without a row gets the defaults of its group, and that is said"),
        Words(f"marks of the rows: {told}; the source of one: warmside feeding species NAME"),
    )


def _row(s: Species) -> tuple[Cell, ...]:
    return (
        s.latin or s.common,
        s.common,
        s.adult_from_g,
        spelled(s.meal_percent[Stage.ADULT]),
        spelled(s.interval_days[Stage.ADULT]),
        s.diet.value,
        s.source.text,
        s.source.mark.value,
    )


def _facts(s: Species) -> Iterator[Fact | Words]:
    yield Fact("species", "species", s.latin, Kind.LATIN)
    yield Fact("default", "by its group's defaults", s.is_default, Kind.YESNO)
    yield Fact("diet", "eats", s.diet.value)
    yield Fact("prey", "prey", s.prey, Kind.LIST)
    yield Fact("plants", "plants", s.plants, Kind.LIST)
    day, night = (f"{spelled(span)} °C" for span in (s.day_c, s.night_c))
    yield Fact("day_temperature", "by day", f"{day}, {s.day_hours:g} hours")
    yield Fact("night_temperature", "by night", night)
    yield Fact("temperature_source", "source", s.temperature_source.text)
    yield Fact("temperature_mark", "mark", s.temperature_source.mark.value)
    yield Fact("width", "prey width to body", spelled(s.width_ratio))
    yield Fact("source", "source of meals", s.source.text)
    yield Fact("mark", "mark of meals", s.source.mark.value)
    if s.words:
        yield Words(s.words)


def _stages(s: Species) -> Table:
    rows = tuple(
        (
            stage.value,
            start,
            spelled(s.meal_percent[stage]),
            spelled(s.interval_days[stage]),
            spelled(s.growth[stage]),
            spelled(s.plant_percent[stage]),
        )
        for stage, start in s.starts_g
    )
    return Table("stages", STAGE_COLUMNS, rows)
