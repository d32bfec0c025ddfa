"""`warmside lineage season`: planning pairs, and where each female is in her season."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Doubtful, NewEvent, session_of
from warmside.plugins.lineage.commands.options import Confirm, Note
from warmside.plugins.lineage.reading.eggs import incubations
from warmside.plugins.lineage.reading.season import season_of, seasons
from warmside.plugins.lineage.reading.unfit import gates_failed
from warmside.plugins.lineage.telling.season import planned_shown, season_shown, seasons_told

app = typer.Typer(help="The breeding season of each female.", no_args_is_help=True)
Dam = Annotated[str, typer.Argument(help="Code or name of the female.")]
OnDay = Annotated[str | None, typer.Option(help="As of that day.")]


@app.command()
def plan(
    context: typer.Context,
    dam: Dam,
    sires: Annotated[list[str], typer.Argument(help="Codes or names of the males.")],
    begin: Annotated[str | None, typer.Option(help="The day on which they are to meet.")] = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Plan pairings; an animal under the mass, age or rest that is set is asked about."""
    session = session_of(context)
    with session.step(f"pairing of {dam}", confirmed=confirm) as writer:
        ask, today = session.asking(writer.book), writer.book.today
        female = ask.book.animal(dam)
        males = [ask.book.animal(sire) for sire in sires]
        if female.sex == "male" or any(m.sex == "female" for m in males):
            raise BadInput("name the female first, then the males")
        for male in males:
            if male.species.id != female.species.id:
                raise BadInput(f"{male.label} is of another species than {female.label}")
        day = session.day(begin, ask.book) if begin else None
        if day is not None and day < today:
            raise BadInput(f"{day} is past; name a day from today on")
        against = [
            f"{animal.label}: {gate.words}"
            for animal in (female, *males)
            for gate in gates_failed(ask, animal, today)
        ]
        if against and not confirm:
            raise Doubtful("; ".join(against), against)
        for male in males:
            data = {
                "partner_animal_id": male.id,
                "state": "planned",
                "begin": day.isoformat() if day else None,
            }
            writer.record(NewEvent("pairing", today, data, female.id, note=note))
        writer.say(f"pairing of {female.label} planned")
    with session.ask() as ask:
        animals = ask.book.animals
        return planned_shown(ask, animals[female.id], [animals[m.id] for m in males], today)


@app.command()
def show(context: typer.Context, dam: Dam, on: OnDay = None) -> Answer:
    """One female: how far she is, when she is to lay, whether she is fit, her clutches."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        female = ask.book.animal(dam)
        if female.sex == "male":
            raise BadInput(f"{female.label} is male; name the female")
        return season_shown(ask, season_of(ask, female, day), day)


@app.command("list")
def list_seasons(context: typer.Context, on: OnDay = None) -> Answer:
    """All females of which anything was seen this season, and the eggs that incubate."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        return seasons_told(ask, seasons(ask, day), incubations(ask, day), day)
