"""`warmside lineage laid`: a clutch in one step, with its eggs, its sires and its incubation."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Any

import typer

from warmside.api import (
    Answer,
    BadInput,
    Clutch,
    StepWriter,
    Unit,
    counted,
    parse_quantity,
    session_of,
)
from warmside.plugins.lineage.commands.entering import enter_clutch
from warmside.plugins.lineage.commands.mothers import Mother, doubt, mother_of
from warmside.plugins.lineage.commands.options import At, Code, Confirm, Note, Sires
from warmside.plugins.lineage.eggs.warmth import warmth_doubts
from warmside.plugins.lineage.hatching.brood import eggs_doubts
from warmside.plugins.lineage.kinds import INCUBATED
from warmside.plugins.lineage.telling.entered import laid_told


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
        mother = mother_of(session, writer, dam, at, live=False)
        whole = good_ones(eggs, good, misfit)
        kept_c = _temperature(kept, writer)
        keeping = {"kept_c": kept_c, "where": where}
        made = enter_eggs(writer, mother, (eggs, whole), sire, keeping, code=code, note=note)
        writer.say(f"{made.label} of {mother.animal.label}: {counted(eggs, 'egg')}")
    with session.ask() as ask:
        return laid_told(ask, ask.book.clutches[made.id], mother.when.day, sire_given=bool(sire))


def enter_eggs(
    writer: StepWriter,
    mother: Mother,
    eggs: tuple[int, int | None],
    sires: list[str] | None = None,
    keeping: Mapping[str, Any] = MappingProxyType({}),
    *,
    code: str | None = None,
    note: str = "",
) -> Clutch:
    """The clutch of so many eggs, of them so many good, and that it is kept: how and where."""
    kept_c = keeping.get("kept_c")
    found = eggs_doubts(eggs[0], mother.largest)
    doubt([*found, *warmth_doubts(kept_c, mother.figures)], writer.confirmed)
    made = enter_clutch(writer, mother, eggs, sires, code=code, note=note)
    if eggs[1] != 0:
        data = {"clutch_id": made.id, "kept_c": None, "where": ""} | dict(keeping)
        writer.record_checked([mother.event(INCUBATED, data)])
    return made


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
