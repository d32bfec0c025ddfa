"""`warmside lineage laid`: a clutch in one step, with its eggs, its sires and its incubation."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from warmside.api import (
    Animal,
    Answer,
    Ask,
    BadInput,
    Clutch,
    Doubtful,
    NewEvent,
    StepWriter,
    Unit,
    When,
    brood,
    parse_quantity,
    session_of,
)
from warmside.plugins.lineage.eggs.warmth import warmth_doubts
from warmside.plugins.lineage.hatching.brood import eggs_doubts
from warmside.plugins.lineage.kinds import INCUBATED
from warmside.plugins.lineage.reading.season import figures_of
from warmside.plugins.lineage.reading.sires import mates
from warmside.plugins.lineage.telling.eggs import laid_told

Sires = Annotated[
    list[str] | None,
    typer.Option("--sire", help="The father; one of several with its weight: PEP=0.7."),
]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]
Code = Annotated[str | None, typer.Option(help="Short code of the clutch; else C1, C2 …")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]
Note = Annotated[str, typer.Option(help="A note.")]


def laid(
    context: typer.Context,
    dam: Annotated[str, typer.Argument(help="Code or name of the mother.")],
    eggs: Annotated[int, typer.Option(help="Eggs in all, slugs too.")],
    good: Annotated[int | None, typer.Option(help="Of these, good ones.")] = None,
    misfit: Annotated[int | None, typer.Option(help="Slugs and misshapen ones instead.")] = None,
    sire: Sires = None,
    kept: Annotated[str | None, typer.Option(help="Incubation temperature: 31C.")] = None,
    where: Annotated[str, typer.Option(help="Which incubator, or with the mother.")] = "",
    code: Code = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Enter a clutch of eggs: who laid it, how many are good, where they are kept."""
    session = session_of(context)
    with session.step(f"clutch of {dam}", confirmed=confirm) as writer:
        ask, when = session.asking(writer.book), session.when(at, writer.book)
        mother = ask.book.animal(dam)
        figures = figures_of(ask, mother)
        if figures and figures.bears_live:
            raise BadInput(f"{mother.label} bears live young: warmside lineage born {mother.code}")
        whole = good_ones(eggs, good, misfit)
        kept_c = _temperature(kept, writer)
        found = list(eggs_doubts(eggs, figures.largest if figures else None))
        doubt([*found, *warmth_doubts(kept_c, figures)], confirm)
        made = enter_clutch(writer, ask, mother, when, (eggs, whole), sire, code=code, note=note)
        if whole != 0:
            data = {"clutch_id": made.id, "kept_c": kept_c, "where": where}
            writer.record_checked([NewEvent(INCUBATED, when.day, data, mother.id, at=when.at)])
        writer.say(f"{made.label} of {mother.label}: {eggs} eggs")
    with session.ask() as ask:
        return laid_told(ask, ask.book.clutches[made.id], when.day, sire_given=bool(sire))


def doubt(found: list[str], confirm: bool) -> None:
    """Raise Doubtful with all that looks odd, unless the keeper confirmed it."""
    if found and not confirm:
        raise Doubtful("; ".join(found))


def good_ones(eggs: int, good: int | None, misfit: int | None) -> int | None:
    """The good eggs, from whichever of both was typed; BadInput where they cannot be."""
    if good is not None and misfit is not None and good + misfit != eggs:
        raise BadInput(f"{good} good and {misfit} misfits are not {eggs} eggs")
    found = good if good is not None else None if misfit is None else eggs - misfit
    if found is not None and not 0 <= found <= eggs:
        raise BadInput(f"{found} good of {eggs} eggs cannot be")
    return found


def _temperature(text: str | None, writer: StepWriter) -> float | None:
    display = writer.book.home.display
    return parse_quantity(text, Unit.TEMPERATURE, display=display, what="--kept") if text else None


def enter_clutch(
    writer: StepWriter,
    ask: Ask,
    mother: Animal,
    when: When,
    eggs: tuple[int, int | None],
    sires: list[str] | None,
    *,
    code: str | None,
    note: str,
) -> Clutch:
    """The clutch, and that it was laid; without --sire the males that she mated with."""
    died = ask.book.latest_of(mother.id, "died").get("died")
    if died is not None and died.day < when.day:
        raise BadInput(f"{mother.label} died on {died.day} and cannot have laid on {when.day}")
    values: dict[str, Any] = {"code": code, "dam_id": mother.id, "laid": when.day}
    values |= {"eggs": eggs[0], "good": eggs[1], "note": note or None}
    candidates, certainty = _candidates(ask, mother, when, sires)
    made = brood.add_clutch(writer, values, candidates, certainty)
    data = {"count": eggs[0], "good": eggs[1], "clutch_id": made.id}
    writer.record(NewEvent("laid", when.day, data, mother.id, at=when.at, note=note))
    return made


def _candidates(
    ask: Ask, mother: Animal, when: When, sires: list[str] | None
) -> tuple[list[brood.Candidate], str | None]:
    """The sires that were named, else her mates: one is probable, several are possible."""
    if sires:
        return brood.candidates(ask.book, "sire", sires), None
    found = mates(ask, mother, when.day)
    word = "probable" if len(found) == 1 else "possible" if found else None
    return [brood.Candidate(animal) for animal in found], word
