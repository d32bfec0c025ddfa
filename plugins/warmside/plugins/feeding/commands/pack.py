"""`warmside feeding pack`: the packs in which prey is bought."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Column,
    Kind,
    NotFound,
    Table,
    Unit,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.feeding.prey.classes import prey_named
from warmside.plugins.feeding.reading.noted import packs
from warmside.plugins.feeding.stock.order import Pack, check_pack
from warmside.plugins.feeding.tables import pack

app = typer.Typer(help="Packs in which prey is bought.", no_args_is_help=True)
Prey = Annotated[str, typer.Argument(help="Prey class: mouse-adult.")]
Size = Annotated[int, typer.Argument(help="Items in a pack.")]
COLUMNS = (
    Column("prey", "prey", Kind.CODE),
    Column("size", "items", Unit.COUNT),
    Column("price", "price", Unit.MONEY),
)


@app.command("list")
def list_packs(context: typer.Context) -> Answer:
    """List the packs."""
    with session_of(context).read() as book:
        rows = tuple((p.prey, p.size, p.price) for p in packs(book))
    hint = "no pack yet; set one: warmside feeding pack set mouse-adult 25 --price 30"
    return Answer("Packs", (Table("packs", COLUMNS, rows, empty=hint),))


@app.command("set")
def set_pack(
    context: typer.Context,
    prey: Prey,
    size: Size,
    price: Annotated[str | None, typer.Option(help="Price of the pack: 30.50.")] = None,
) -> Answer:
    """Set a pack that can be bought."""
    cost = parse_quantity(price, Unit.MONEY, what="price") if price else None
    new = check_pack(Pack(prey, size, cost))
    session = session_of(context)
    with session.step(f"pack of {size} × {new.prey}") as writer:
        key = {"prey": new.prey, "size": new.size}
        if any((p.prey, p.size) == (new.prey, new.size) for p in packs(writer.book)):
            writer.change(pack, key, price=new.price)
        else:
            writer.insert(pack, **key, price=new.price)
    return said(f"a pack of {size} × {prey_named(new.prey).name} can be ordered")


@app.command()
def drop(context: typer.Context, prey: Prey, size: Size) -> Answer:
    """Drop a pack that is no longer sold."""
    code = prey_named(prey).code
    session = session_of(context)
    with session.step(f"dropped the pack of {size} × {code}") as writer:
        if not any((p.prey, p.size) == (code, size) for p in packs(writer.book)):
            raise NotFound(f"there is no pack of {size} × {code}; see: warmside feeding pack list")
        writer.remove(pack, {"prey": code, "size": size})
    return said(f"dropped the pack of {size} × {code}", hints=["warmside undo (take it back)"])
