"""`warmside lineage hatch` and `born`: all young of a clutch or litter in one step."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, Ask, BadInput, Clutch, StepWriter, When, session_of
from warmside.plugins.lineage.commands.entering import enter, enter_clutch, note_lost
from warmside.plugins.lineage.commands.mothers import Mother, doubt, mother_of
from warmside.plugins.lineage.commands.options import At, Code, Confirm, Note, Sires
from warmside.plugins.lineage.hatching.brood import (
    brood_of,
    day_doubts,
    eggs_doubts,
    number_doubts,
)
from warmside.plugins.lineage.hatching.typed import Young, read_young
from warmside.plugins.lineage.reading.eggs import incubation
from warmside.plugins.lineage.reading.young_file import read_file
from warmside.plugins.lineage.telling.entered import hatched_told

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
        check_hatching(ask, found, hatchlings, when, lost, confirm=confirm)
        made = enter(writer, ask, found, hatchlings, when, into=into, stem=stem, note=note)
        if lost:
            note_lost(writer, found, when, lost)
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
        mother = mother_of(session, writer, dam, at, live=True)
        described = _described(writer, young, file)
        litter = brood_of(described, count) if described or count else []
        if lost < 0:
            raise BadInput(f"{lost} stillborn cannot be")
        found = enter_litter(writer, mother, litter, lost, sire, code=code, note=note)
        made: list[int] = []
        if litter:
            made = enter(writer, mother.ask, found, litter, mother.when, into=into, stem=stem)
        writer.say(f"litter of {mother.animal.label}: {len(made)} young")
    with session.ask() as ask:
        return hatched_told(ask, ask.book.clutches[found.id], made, mother.when.day)


def _described(writer: StepWriter, young: list[str] | None, file: Path | None) -> list[Young]:
    display = writer.book.home.display
    typed = [read_young(text, display) for text in young or ()]
    return [*typed, *(read_file(file, display) if file else ())]


def enter_litter(
    writer: StepWriter,
    mother: Mother,
    litter: Sequence[Young],
    lost: int,
    sires: list[str] | None = None,
    *,
    code: str | None = None,
    note: str = "",
) -> Clutch:
    """The clutch of a litter; its young are entered apart."""
    total = len(litter) + lost
    doubt(eggs_doubts(total, mother.largest), writer.confirmed)
    return enter_clutch(writer, mother, (total, len(litter)), sires, code=code, note=note)


def check_hatching(
    ask: Ask, clutch: Clutch, young: Sequence[Young], when: When, lost: int, *, confirm: bool
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
