"""`warmside feeding species`: how species are fed, by the shipped table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Basis,
    Cell,
    Column,
    Estimate,
    Fact,
    Kind,
    NotFound,
    Table,
    Unit,
    Words,
    session_of,
)
from warmside.plugins.feeding.care.cautions import cautions
from warmside.plugins.feeding.care.diets import Part, Stage, rhythm_words
from warmside.plugins.feeding.care.own import spelled
from warmside.plugins.feeding.care.species import (
    Species,
    group_rows,
    species_for,
    species_rows,
)
from warmside.plugins.feeding.telling.plan import cautioned, no_row

COLUMNS = (
    Column("species", "species", Kind.LATIN),
    Column("common", "name", text=False),
    Column("diet", "eats"),
    Column("adult", "when grown"),
    Column("meal", "adult meal, % of mass"),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)
STAGE_COLUMNS = (
    Column("part", "part"),
    Column("stage", "stage"),
    Column("often", "how often"),
    Column("meal", "% of mass a day of it"),
    Column("portion", "how much"),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
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
        Words(
            "a name of one word stands for a genus; of a group only how often is known, not what"
        ),
        Words(f"marks of the rows: {told}; the source of one: warmside feeding species NAME"),
    )


def _row(s: Species) -> tuple[Cell, ...]:
    return (
        s.latin or s.common,
        s.common,
        s.diet.name or "not known",
        s.diet.said(Stage.ADULT) or s.part.words(Stage.ADULT),
        _share(s.part, Stage.ADULT),
        s.source.text,
        s.source.mark.value,
    )


def _facts(s: Species) -> Iterator[Fact | Words]:
    yield Fact("species", "species", s.latin, Kind.LATIN)
    yield Fact("default", "no row of its own", s.is_default, Kind.YESNO)
    yield Fact("diet", "eats", s.diet.words or "not known")
    for part in s.diet.parts:
        yield Fact(f"foods_{part.key}", part.name, part.foods, Kind.LIST)
    of = Basis(f"to reckon energy with, {s.day_hours:g} hours a day warm", s.temperature_source)
    for key, title, span in (("day", "body by day", s.day_c), ("night", "by night", s.night_c)):
        yield Fact(key, title, Estimate(None, *span, Unit.TEMPERATURE, of), Unit.TEMPERATURE)
    yield Fact("width", "prey width to body", spelled(s.width_ratio))
    yield Fact("source", "source of meals", s.source.text)
    yield Fact("mark", "mark of meals", s.source.mark.value)
    if about := s.words_at(tuple(Stage)):
        yield Words(about)
    if s.fast:
        yield Words(f"fasts: {s.fast}")


def _stages(s: Species) -> Table:
    rows = (row for p in s.diet.parts or (s.part,) for row in _part_rows(p))
    return Table("stages", STAGE_COLUMNS, tuple(rows))


def _part_rows(part: Part) -> Iterator[tuple[Cell, ...]]:
    """A row for each stage, and for each sex at the stages at which it is fed otherwise."""
    for stage in Stage:
        yield _stage_row(part, stage, stage.value)
        for sex, own in part.of_sex.items():
            if any(stage in spans for spans in own):
                yield _stage_row(part.for_sex(sex), stage, f"{stage} {sex}")


def _stage_row(part: Part, stage: Stage, said: str) -> tuple[Cell, ...]:
    days, of = part.every(stage), part.percent_source
    often = rhythm_words(days, part.feeds_at(stage)) if days else "none"
    return (
        part.name,
        said,
        often,
        _share(part, stage),
        part.portion,
        of.text,
        of.mark.value,
    )


def _share(part: Part, stage: Stage) -> str:
    return spelled(part.percent[stage]) if stage in part.percent else "–"
