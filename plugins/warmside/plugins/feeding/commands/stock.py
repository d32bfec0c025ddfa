"""`warmside feeding stock`: prey in the freezer."""

from __future__ import annotations

import json
from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Ask,
    BadInput,
    Display,
    NotFound,
    StepWriter,
    Unit,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.feeding import tables
from warmside.plugins.feeding.prey.classes import prey_named
from warmside.plugins.feeding.reading.stock import settled, stock, to_settle
from warmside.plugins.feeding.stock.lots import Lot, check_lot
from warmside.plugins.feeding.telling.stock import lots_table, totals

app = typer.Typer(help="Prey in the freezer.", no_args_is_help=True)
UNDO = "warmside undo (take it back)"


@app.command("list")
def list_stock(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """What is left of each lot, recorded meals taken off, oldest first."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        lots = sorted(stock(ask, day), key=lambda lot: (lot.prey, lot.day, lot.id))
    return Answer(f"Stock, as of {day}", (lots_table(lots, day), totals(lots)))


@app.command()
def add(
    context: typer.Context,
    prey: Annotated[str, typer.Argument(help="Prey class: mouse-adult, or its name.")],
    count: Annotated[int, typer.Argument(help="How many.")],
    each: Annotated[str | None, typer.Option(help="Mass of one: 24g.")] = None,
    frozen: Annotated[
        str | None, typer.Option(help="Day it was frozen or bought; else the day it came.")
    ] = None,
    price: Annotated[str | None, typer.Option(help="Price of all of it: 30.50.")] = None,
    on: Annotated[
        str | None, typer.Option(help="Day it came; meals from that day on take from it.")
    ] = None,
) -> Answer:
    """Add prey; recorded meals take from it, oldest first."""
    session = session_of(context)
    with session.step(f"stock: {count} × {prey}") as writer:
        book = writer.book
        came = session.day(on, book)
        old = session.day(frozen, book) if frozen else came
        if max(came, old) > book.today:
            raise BadInput(f"{max(came, old)} is in the future; prey in stock is here already")
        lot = check_lot(
            Lot(0, prey, count, old, _each(each, book.home.display), _price(price, count))
        )
        if count == 0:
            raise BadInput("0 pieces to add; give a count of 1 or more")
        settle(session.asking(book), writer, came)
        id = writer.insert(
            tables.lot,
            prey=lot.prey,
            count=lot.count,
            since=came.isoformat(),
            frozen=old.isoformat(),
            each_g=lot.each_g,
            price=lot.price,
        )
        name = prey_named(lot.prey).name
        writer.say(f"stock: {count} × {name} added")
    return said(f"added {count} × {name} as lot {id}", hints=[UNDO])


def _each(text: str | None, display: Display) -> float | None:
    return parse_quantity(text, Unit.MASS, display=display, what="each") if text else None


def _price(text: str | None, count: int) -> float | None:
    """The price of one, from that of all."""
    if not text:
        return None
    whole = parse_quantity(text, Unit.MONEY, what="price")
    return whole / count if count > 0 else whole


def settle(ask: Ask, writer: StepWriter, came: date) -> None:
    """Note what was left some weeks ago, so that older meals need not be read again.

    Not while lots of longer ago are entered; BadInput for one of before the day settled last.
    """
    before = settled(ask.book)
    if before and came <= before.day:
        raise BadInput(
            f"meals up to {before.day} are settled with the stock; "
            f"add what is there now instead of on {came}"
        )
    found = to_settle(ask)
    if found and came > found.day:
        left = json.dumps({str(k): v for k, v in found.left.items()})
        writer.insert(tables.settled, day=found.day.isoformat(), newest=found.newest, left=left)


@app.command()
def discard(
    context: typer.Context,
    lot: Annotated[int, typer.Argument(help="Number of the lot, from the list.")],
    count: Annotated[int | None, typer.Option(help="How many; else all that is left.")] = None,
    reason: Annotated[str, typer.Option(help="Why: too old, thawed, miscounted.")] = "",
) -> Answer:
    """Take prey out of the stock that was not eaten."""
    session = session_of(context)
    with session.step(f"stock: lot {lot} discarded") as writer:
        ask = session.asking(writer.book)
        found = next((x for x in stock(ask, ask.book.today) if x.id == lot), None)
        if found is None:
            raise NotFound(f"nothing is left of lot {lot}; see: warmside feeding stock list")
        gone = found.count if count is None else count
        if not 1 <= gone <= found.count:
            raise BadInput(f"{gone} pieces of lot {lot}; {found.count} are left, give 1 or more")
        day = ask.book.today.isoformat()
        writer.insert(tables.thrown, lot=lot, day=day, count=gone, reason=reason.strip())
        name = prey_named(found.prey).name
        writer.say(f"stock: {gone} × {name} of lot {lot} discarded")
    return said(f"took {gone} × {name} out of lot {lot}", hints=[UNDO])
