"""`warmside lineage eggs`: clutches that incubate, looks at them, their temperature."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    NewEvent,
    Unit,
    parse_quantity,
    recorded,
    session_of,
)
from warmside.plugins.lineage.commands.mothers import doubt
from warmside.plugins.lineage.commands.options import At, Confirm, Note
from warmside.plugins.lineage.eggs.warmth import warmth_doubts
from warmside.plugins.lineage.kinds import EGGS, INCUBATED
from warmside.plugins.lineage.reading.eggs import incubation, incubations, own_clutches, parent_of
from warmside.plugins.lineage.telling.eggs import eggs_shown, eggs_table

app = typer.Typer(help="Clutches in the incubator.", no_args_is_help=True)
ClutchName = Annotated[str, typer.Argument(help="Code of the clutch.")]
OnDay = Annotated[str | None, typer.Option(help="As of that day.")]


@app.command("list")
def list_eggs(context: typer.Context, on: OnDay = None) -> Answer:
    """The clutches of which eggs are awaited, and when they are to hatch."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        return Answer(f"Eggs on {day}", (eggs_table(ask.book, incubations(ask, day), day),))


@app.command()
def show(context: typer.Context, clutch: ClutchName, on: OnDay = None) -> Answer:
    """One clutch: its eggs, its window, looks at it, how long own clutches took."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        found = incubation(ask, ask.book.clutch(clutch), day)
        return eggs_shown(ask, found, own_clutches(ask, found, day), day)


@app.command()
def check(
    context: typer.Context,
    clutch: ClutchName,
    good: Annotated[int | None, typer.Option(help="Good eggs that are left.")] = None,
    removed: Annotated[int | None, typer.Option(help="Eggs that were taken out.")] = None,
    looks: Annotated[str, typer.Option(help="Mould, dents, what candling shows.")] = "",
    at: At = None,
    note: Note = "",
) -> Answer:
    """Record a look at the eggs; with --good 0 none is awaited any more."""
    session = session_of(context)
    with session.step(f"eggs of {clutch}") as writer:
        ask, when = session.asking(writer.book), session.when(at, writer.book)
        found = incubation(ask, ask.book.clutch(clutch), when.day)
        left, all_eggs = found.eggs.left, found.clutch.eggs
        most = all_eggs if all_eggs is not None else left
        for number in (good, removed):
            if number is not None and (number < 0 or (most is not None and number > most)):
                raise BadInput(f"{number} of {most} eggs of {found.clutch.label} cannot be")
        if good is None and removed is not None and left is not None:
            good = max(0, left - removed)
        data = {"clutch_id": found.clutch.id, "good": good, "removed": removed, "looks": looks}
        new = NewEvent(EGGS, when.day, data, parent_of(found.clutch), at=when.at, note=note)
        writer.record_checked([new])
        writer.say(f"looked at the eggs of {found.clutch.label}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


@app.command()
def incubate(
    context: typer.Context,
    clutch: ClutchName,
    kept: Annotated[str | None, typer.Option(help="Incubation temperature: 31C.")] = None,
    where: Annotated[str, typer.Option(help="Which incubator, or with the mother.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record where eggs are kept and how warm; looks at them are asked for from then on."""
    session = session_of(context)
    with session.step(f"eggs of {clutch} incubated", confirmed=confirm) as writer:
        ask, when = session.asking(writer.book), session.when(at, writer.book)
        found = incubation(ask, ask.book.clutch(clutch), when.day)
        if found.clutch.laid is None:
            code = found.clutch.code
            raise BadInput(f"say when it was laid: warmside clutch change {code} --laid DAY")
        display = ask.book.home.display
        what = "--kept"
        kept_c = (
            parse_quantity(kept, Unit.TEMPERATURE, display=display, what=what) if kept else None
        )
        doubt(warmth_doubts(kept_c, found.figures), confirm)
        data = {"clutch_id": found.clutch.id, "kept_c": kept_c, "where": where}
        new = NewEvent(INCUBATED, when.day, data, parent_of(found.clutch), at=when.at, note=note)
        writer.record_checked([new])
        writer.say(f"eggs of {found.clutch.label} incubated")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)
