"""`warmside enclosure`: enclosures and who lives in them."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Table, said
from warmside.core.record.entities import Enclosure
from warmside.core.record.entries import add_enclosure, change_enclosure
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display, parse_quantity
from warmside.core.values.units import Unit

app = typer.Typer(help="Enclosures.", no_args_is_help=True)

LARGEST_MM = 50_000.0  # a digit or a unit too much, even for a walk-in

Code = Annotated[str, typer.Argument(help="Code or name.")]
Size = Annotated[str | None, typer.Option(help="Inner size, such as 120cm or 4ft.")]


def length(text: str | None, what: str, display: Display) -> float | None:
    """An inner size in millimetres; a number without a unit is as the collection shows it."""
    if text is None:
        return None
    size = parse_quantity(text, Unit.LENGTH, display=display, what=what)
    if not 0 < size <= LARGEST_MM:
        raise BadInput(f"{what} {text} is no inner size; check the number and its unit")
    return size


def sizes(e: Enclosure) -> tuple[Fact, ...]:
    """The inner sizes that are known."""
    facts = (
        Fact("width", "inner width", e.width_mm, Unit.LENGTH),
        Fact("depth", "inner depth", e.depth_mm, Unit.LENGTH),
        Fact("height", "inner height", e.height_mm, Unit.LENGTH),
    )
    return tuple(f for f in facts if f.value is not None)


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
    with session_of(context).step(f"entered enclosure {name}") as writer:
        display = writer.book.home.display
        made = add_enclosure(
            writer,
            name,
            code=code,
            room=room,
            width_mm=length(width, "width", display),
            depth_mm=length(depth, "depth", display),
            height_mm=length(height, "height", display),
            note=note,
        )
    where = f" in {made.room}" if made.room else ""
    return said(
        f"entered enclosure {made.name} as {made.code}{where}",
        *sizes(made),
        hints=["warmside undo (take it back)"],
    )


@app.command("list")
def list_enclosures(
    context: typer.Context,
    retired: Annotated[bool, typer.Option("--all", help="Also retired ones.")] = False,
    on: Annotated[str | None, typer.Option(help="Who lived there on that day.")] = None,
) -> Answer:
    """List the enclosures and who lives in them."""
    columns = (
        Column("code", "code", Kind.CODE),
        Column("name", "name"),
        Column("room", "room"),
        Column("width", "width", Unit.LENGTH),
        Column("depth", "depth", Unit.LENGTH),
        Column("height", "height", Unit.LENGTH),
        Column("animals", "animals", Kind.LIST),
        Column("retired", "retired", Kind.YESNO, text=retired),
    )
    session = session_of(context)
    with session.read() as book:
        inside = book.occupants(session.day(on, book))
        rows = tuple(
            (
                e.code,
                e.name,
                e.room,
                e.width_mm,
                e.depth_mm,
                e.height_mm,
                tuple(book.animals[a].label for a in inside.get(e.id, ())),
                e.retired,
            )
            for e in book.enclosures.values()
            if retired or not e.retired
        )
    hint = "no enclosure yet; enter one: warmside enclosure add NAME --room ROOM"
    return Answer("Enclosures", (Table("enclosures", columns, rows, empty=hint),))


@app.command()
def show(context: typer.Context, enclosure: Code) -> Answer:
    """Show one enclosure."""
    with session_of(context).read() as book:
        e = book.enclosure(enclosure)
        inside = tuple(book.animals[a].label for a in book.occupants().get(e.id, ()))
    facts = (
        Fact("code", "code", e.code, Kind.CODE),
        Fact("name", "name", e.name),
        Fact("room", "room", e.room or None),
        *sizes(e),
        Fact("animals", "animals", inside, Kind.LIST),
        Fact("retired", "retired", e.retired, Kind.YESNO),
        Fact("note", "note", e.note or None),
    )
    return Answer(f"{e.name} ({e.code})", tuple(f for f in facts if f.value is not None))


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
    with session_of(context).step(f"changed enclosure {enclosure}") as writer:
        display = writer.book.home.display
        changed = change_enclosure(
            writer,
            writer.book.enclosure(enclosure),
            name=name,
            code=code,
            room=room,
            width_mm=length(width, "width", display),
            depth_mm=length(depth, "depth", display),
            height_mm=length(height, "height", display),
            note=note,
            retired=retired,
        )
        writer.say(f"changed enclosure {changed.code}")
    state = ", retired" if changed.retired else ""
    return said(
        f"changed enclosure {changed.name} ({changed.code}){state}",
        *sizes(changed),
        hints=["warmside undo (take it back)"],
    )
