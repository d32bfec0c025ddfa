"""`warmside lineage loan`: loans, what was agreed on their young, and whose they are."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    About,
    Answer,
    BadInput,
    NewEvent,
    NotFound,
    Unit,
    parse_quantity,
    recorded,
    session_of,
)
from warmside.plugins.lineage.kinds import DIVIDED, LOAN
from warmside.plugins.lineage.loans.agreeing import agreed_data, check_divided, newest
from warmside.plugins.lineage.reading.loan_young import broods, is_parent, young_of_loans
from warmside.plugins.lineage.reading.loans import loans, loans_of_animal
from warmside.plugins.lineage.telling.loans import loan_shown, loans_table
from warmside.plugins.lineage.telling.papers import agreement

app = typer.Typer(help="Loans of animals, and the young of each side.", no_args_is_help=True)
AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
OnDay = Annotated[str | None, typer.Option(help="As of that day.")]


@app.command()
def agree(
    context: typer.Context,
    animal: AnimalName,
    until: Annotated[str | None, typer.Option(help="Agreed day of return.")] = None,
    ours: Annotated[str | None, typer.Option(help="Our share of the young: 50%.")] = None,
    odd: Annotated[
        str | None, typer.Option(help="us or them: who has a young that cannot be shared.")
    ] = None,
    over: Annotated[
        str | None, typer.Option(help='"each clutch" or "all clutches" are shared out at a time.')
    ] = None,
    young: Annotated[str, typer.Option(help="What else was agreed on the young.")] = "",
    terms: Annotated[str, typer.Option(help="Other terms.")] = "",
    at: Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
) -> Answer:
    """Record what was agreed on the loan that runs; what is not named stays as it was."""
    session = session_of(context)
    with session.step(f"loan of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        loan = newest(loans_of_animal(book, found.id, when.day), found, when.day)
        share = None if ours is None else parse_quantity(ours, Unit.PERCENT, what="--ours")
        day = session.day(until, book) if until else None
        data = agreed_data(loan, day, share, odd=odd, over=over, young=young, terms=terms)
        writer.record(NewEvent(LOAN, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"what was agreed on the loan of {found.label}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


@app.command("list")
def list_loans(
    context: typer.Context,
    all: Annotated[bool, typer.Option("--all", help="Those that ended, too.")] = False,
    on: OnDay = None,
) -> Answer:
    """Loans that run, both ways, with the young of each side."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        found = young_of_loans(ask, loans(ask.book, day), day)
        shown = [(loan, young) for loan, young in found if all or loan.runs(day)]
        return Answer(f"Loans on {day}", (loans_table(ask.book, shown, day),))


@app.command()
def show(context: typer.Context, animal: AnimalName, on: OnDay = None) -> Answer:
    """The last loan of an animal: what was agreed, its young, and whose they are."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        found = ask.book.animal(animal)
        mine = young_of_loans(ask, loans_of_animal(ask.book, found.id, day), day)
        if not mine:
            raise NotFound(
                f"{found.label} is not and was not on loan; lend it: "
                f"warmside lend {found.code} --to NAME --until DAY"
            )
        after = float(ask.setting("lineage", "loan_young", About(found.id)))
        return loan_shown(ask.book, *mine[-1], day, after)


@app.command()
def divide(
    context: typer.Context,
    animal: AnimalName,
    clutch: Annotated[str, typer.Argument(help="Code of the clutch.")],
    ours: Annotated[int, typer.Option(help="Young that are ours.")],
    theirs: Annotated[int, typer.Option(help="Young that are theirs.")],
    at: Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")] = None,
    note: Annotated[str, typer.Option(help="Which animals went to whom.")] = "",
) -> Answer:
    """Record how the young of a clutch were shared out."""
    session = session_of(context)
    with session.step(f"young of {animal} shared out") as writer:
        book = writer.book
        found, eggs, when = book.animal(animal), book.clutch(clutch), session.when(at, book)
        if not is_parent(eggs, found.id):
            raise BadInput(f"{found.label} is no parent of {eggs.label}; name its dam or sire")
        newest(loans_of_animal(book, found.id, when.day), found, when.day, ended=True)
        brood = next((b for b in broods(book, found.id, when.day) if b.clutch == eggs.code), None)
        check_divided(eggs.label, brood.hatched if brood else None, ours, theirs)
        data = {"clutch_id": eggs.id, "ours": ours, "theirs": theirs}
        writer.record(NewEvent(DIVIDED, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"young of {eggs.label} shared out")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


@app.command()
def paper(context: typer.Context, animal: AnimalName, on: OnDay = None) -> Answer:
    """The agreement as a paper to fill in and sign: save it with --save agreement.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        day, found = session.day(on, ask.book), ask.book.animal(animal)
        mine = [loan for loan in loans_of_animal(ask.book, found.id, day) if loan.runs(day)]
        return agreement(ask, found, mine[-1] if mine else None, day)
