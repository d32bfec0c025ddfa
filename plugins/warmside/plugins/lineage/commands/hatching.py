"""`warmside lineage hatch` and `born`: all young of a clutch or litter in one step."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Ask,
    BadInput,
    Clutch,
    Enclosure,
    NewEvent,
    PartialDate,
    StepWriter,
    When,
    brood,
    progress,
    session_of,
)
from warmside.plugins.lineage.commands.laying import (
    At,
    Code,
    Confirm,
    Note,
    Sires,
    doubt,
    enter_clutch,
)
from warmside.plugins.lineage.hatching.brood import (
    brood_of,
    day_doubts,
    eggs_doubts,
    named,
    number_doubts,
)
from warmside.plugins.lineage.hatching.typed import Young, read_young
from warmside.plugins.lineage.kinds import EGGS
from warmside.plugins.lineage.reading.eggs import incubation, parent_of
from warmside.plugins.lineage.reading.season import figures_of
from warmside.plugins.lineage.reading.young_file import read_file
from warmside.plugins.lineage.telling.young import hatched_told

Described = Annotated[
    list[str] | None,
    typer.Argument(help='Each young as far as known: "54g female visual albino", "Kid: 51g".'),
]
Count = Annotated[int | None, typer.Option(help="How many young in all, described or not.")]
File = Annotated[
    Path | None, typer.Option(help="CSV with the columns name, code, sex, mass, looks.")
]
Into = Annotated[str | None, typer.Option(help="The enclosure that they go to.")]
Stem = Annotated[str | None, typer.Option("--named", help='What they are called: "Kid" 1, 2 …')]
BRED = "bred here"


def hatch(
    context: typer.Context,
    clutch: Annotated[str, typer.Argument(help="Code of the clutch.")],
    young: Described = None,
    count: Count = None,
    file: File = None,
    lost: Annotated[int, typer.Option(help="Eggs that will not hatch any more.")] = 0,
    into: Into = None,
    stem: Stem = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Enter the young that hatched: each with code, parents, weight, sex and looks, in one step."""
    session = session_of(context)
    with session.step(f"young of {clutch}", confirmed=confirm) as writer:
        ask, when = session.asking(writer.book), session.when(at, writer.book)
        found = ask.book.clutch(clutch)
        described = _described(writer, young, file)
        if not described and count is None:
            raise BadInput("say how many hatched: --count 6, or describe each")
        hatchlings = brood_of(described, count)
        _check(ask, found, hatchlings, when, lost, confirm)
        made = enter(writer, ask, found, hatchlings, when, into=into, stem=stem, note=note)
        if lost:
            _note_lost(writer, found, when, lost)
        writer.say(f"{len(made)} young of {found.label}")
    with session.ask() as ask:
        return hatched_told(ask, ask.book.clutches[found.id], made, when.day)


def born(
    context: typer.Context,
    dam: Annotated[str, typer.Argument(help="Code or name of the mother.")],
    young: Described = None,
    count: Annotated[int | None, typer.Option("--young", help="How many live young.")] = None,
    file: File = None,
    lost: Annotated[int, typer.Option(help="Stillborn young and slugs.")] = 0,
    sire: Sires = None,
    into: Into = None,
    stem: Stem = None,
    code: Code = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Enter a litter that was born alive: the clutch, and all its young, in one step."""
    session = session_of(context)
    with session.step(f"litter of {dam}", confirmed=confirm) as writer:
        ask, when = session.asking(writer.book), session.when(at, writer.book)
        mother = ask.book.animal(dam)
        figures = figures_of(ask, mother)
        if figures is not None and not figures.bears_live:
            raise BadInput(f"{mother.label} lays eggs: warmside lineage laid {mother.code}")
        described = _described(writer, young, file)
        litter = brood_of(described, count) if described or count else []
        if lost < 0:
            raise BadInput(f"{lost} stillborn cannot be")
        total = len(litter) + lost
        doubt(list(eggs_doubts(total, figures.largest if figures else None)), confirm)
        eggs = (total, len(litter))
        found = enter_clutch(writer, ask, mother, when, eggs, sire, code=code, note=note)
        made: list[int] = []
        if litter:
            made = enter(writer, ask, found, litter, when, into=into, stem=stem, note="")
        writer.say(f"litter of {mother.label}: {len(made)} young")
    with session.ask() as ask:
        return hatched_told(ask, ask.book.clutches[found.id], made, when.day)


def _described(writer: StepWriter, young: list[str] | None, file: Path | None) -> list[Young]:
    display = writer.book.home.display
    typed = [read_young(text, display) for text in young or ()]
    return [*typed, *(read_file(file, display) if file else ())]


def _check(
    ask: Ask, clutch: Clutch, young: Sequence[Young], when: When, lost: int, confirm: bool
) -> None:
    """Raise what cannot be of the number and the day, or ask."""
    now = incubation(ask, clutch, max(when.day, ask.book.today))
    if when.day > ask.book.today:
        raise BadInput(f"{when.day} is in the future")
    if lost < 0:
        raise BadInput(f"{lost} lost eggs cannot be")
    before = max(now.eggs.hatched, len(ask.book.young_of(clutch.id)))
    doubts = [
        *number_doubts(clutch.eggs, before + len(young) + lost),
        *day_doubts(clutch.laid, when.day, now.figures),
    ]
    doubt(doubts, confirm)


def enter(
    writer: StepWriter,
    ask: Ask,
    clutch: Clutch,
    young: Sequence[Young],
    when: When,
    *,
    into: str | None,
    stem: str | None,
    note: str,
) -> list[int]:
    """The young as animals, what was seen of each, and that they hatched; their ids."""
    book = ask.book
    place = book.enclosure(into) if into else None
    taken = {a.code for a in book.animals.values()}
    called = list(named(young, stem or clutch.code, clutch.code, taken))
    first = min(clutch.hatched_first or when.day, when.day)
    last = max(clutch.hatched_last or clutch.hatched_first or when.day, when.day)
    values = {"hatched_first": first, "hatched_last": last if last != first else None}
    changed = brood.change_clutch(writer, writer.reread().clutches[clutch.id], values)
    species = book.animals[parent_of(clutch)].species.scientific
    with progress("entering", len(called)) as done:
        newcomers = [_newcomer(y, species, when) for y in called]
        ids = brood.enter_young(writer, changed, newcomers, done)
    events = [e for id, y in zip(ids, called, strict=True) for e in _events(id, y, when, place)]
    data = {"count": len(ids), "clutch_id": clutch.id}
    told = NewEvent("hatched", when.day, data, parent_of(clutch), at=when.at, note=note)
    writer.record_checked([told, *events])
    return ids


def _newcomer(young: Young, species: str, when: When) -> brood.Newcomer:
    hatched = PartialDate(when.day.year, when.day.month, when.day.day)
    known_by = "not known" if young.sex == "unknown" else "observed at hatching"
    return brood.Newcomer(
        young.name,
        species,
        young.code,
        young.sex,
        hatched,
        sex_known_by=known_by,
        origin=BRED,
    )


def _events(id: int, young: Young, when: When, place: Enclosure | None) -> list[NewEvent]:
    """That it is here, what it weighed, how it looks."""
    where = place.id if place else None
    found = [NewEvent("arrived", when.day, {"how": BRED}, id, where, at=when.at)]
    if young.mass_g is not None:
        found.append(NewEvent("weighed", when.day, {"mass_g": young.mass_g}, id, at=when.at))
    if young.looks:
        found.append(NewEvent("looks", when.day, {"says": young.looks}, id, at=when.at))
    return found


def _note_lost(writer: StepWriter, clutch: Clutch, when: When, lost: int) -> None:
    """That no more will hatch."""
    data = {"clutch_id": clutch.id, "good": 0, "removed": lost}
    writer.record_checked([NewEvent(EGGS, when.day, data, parent_of(clutch), at=when.at)])
