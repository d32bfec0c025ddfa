"""`warmside enclosure`: enclosures and who lives in them."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.own_values import CORE, names_of
from warmside.core.asking.subjects.cards import enclosure_card
from warmside.core.asking.subjects.listings import enclosures
from warmside.core.doing.entering import alter_enclosure, enter_enclosure
from warmside.core.doing.setting import NewValue, set_value
from warmside.core.session.session import session_of

app = typer.Typer(help="Enclosures.", no_args_is_help=True)

VALUES_OF_ENCLOSURES = names_of("enclosure")
Code = Annotated[str, typer.Argument(help="Code or name.")]
Size = Annotated[str | None, typer.Option(help="Inner size, such as 120cm or 4ft.")]


@app.command()
def add(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the enclosure.")],
    code: Annotated[str | None, typer.Option(help="Short code; else one is suggested.")] = None,
    room: Annotated[str, typer.Option(help="The room it stands in.")] = "",
    width: Size = None,
    depth: Size = None,
    height: Size = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
) -> Answer:
    """Enter an enclosure."""
    values = {
        "code": code,
        "room": room,
        "note": note,
    }
    sizes = {"width": width, "depth": depth, "height": height}
    return enter_enclosure(session_of(context), name, sizes, values)


@app.command("list")
def list_enclosures(
    context: typer.Context,
    retired: Annotated[bool, typer.Option("--all", help="Also retired ones.")] = False,
    on: Annotated[str | None, typer.Option(help="Who lived there on that day.")] = None,
) -> Answer:
    """List the enclosures and who lives in them."""
    session = session_of(context)
    with session.read() as book:
        return enclosures(book, session.day(on, book), retired=retired)


@app.command()
def show(context: typer.Context, enclosure: Code) -> Answer:
    """Show one enclosure."""
    with session_of(context).read() as book:
        return enclosure_card(book, book.enclosure(enclosure))


@app.command("set")
def set_own(
    context: typer.Context,
    enclosure: Code,
    name: Annotated[str, typer.Argument(help=VALUES_OF_ENCLOSURES)],
    value: Annotated[str, typer.Argument(help="The value, or: default.")],
    note: Annotated[str, typer.Option(help="Where it comes from.")] = "",
) -> Answer:
    """Set what holds for an enclosure: how a sitter does it, step by step."""
    wanted = NewValue(CORE.name, name, value, enclosure=enclosure, note=note)
    return set_value(session_of(context), wanted, CORE)


@app.command()
def change(
    context: typer.Context,
    enclosure: Code,
    name: Annotated[str | None, typer.Option(help="New name.")] = None,
    code: Annotated[str | None, typer.Option(help="New code.")] = None,
    room: Annotated[str | None, typer.Option(help="The room it stands in.")] = None,
    width: Size = None,
    depth: Size = None,
    height: Size = None,
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
    retired: Annotated[
        bool | None, typer.Option("--retired/--in-use", help="Out of use, or in use again.")
    ] = None,
) -> Answer:
    """Change what was entered of an enclosure."""
    values = {
        "name": name,
        "code": code,
        "room": room,
        "note": note,
        "retired": retired,
    }
    sizes = {"width": width, "depth": depth, "height": height}
    return alter_enclosure(session_of(context), enclosure, sizes, values)
