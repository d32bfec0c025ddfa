"""`warmside rhythm`: set, list and drop rhythms."""

from __future__ import annotations

from typing import Annotated

import typer
from sqlalchemy import select

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Column,
    EventKind,
    Kind,
    NotFound,
    StepWriter,
    Subject,
    Table,
    Unit,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.rhythm.tables import rhythm

app = typer.Typer(help="How often something is done.", no_args_is_help=True)
MOST_DAYS = 3650

KindName = Annotated[str, typer.Argument(help="Kind of event: weighed, cleaned, watered …")]
Subjects = Annotated[
    list[str] | None, typer.Argument(help="Animals or enclosures; none means all.")
]


@app.command("set")
def set_rhythm(
    context: typer.Context,
    kind: KindName,
    subjects: Subjects = None,
    every: Annotated[str, typer.Option(help="Days between: 30 or 4w.")] = "",
) -> Answer:
    """Set how often something is done, for all or for some."""
    session = session_of(context)
    if not every:
        raise BadInput("name the interval: --every 30")
    days = whole_days(every)
    with session.step(f"rhythm {kind}") as writer:
        found = writer.book.host.kind(kind)
        for about in keys(writer.book, found, subjects or []):
            store(writer, found.name, days, about)
        whom = ", ".join(subjects) if subjects else "all"
        writer.say(f"rhythm: {found.title} every {days} days for {whom}")
    return said(
        f"{found.title} is due every {days} days for {whom}", hints=["warmside today (the round)"]
    )


def whole_days(text: str) -> int:
    """An interval in whole days; raises BadInput outside 1 day to 10 years."""
    days = parse_quantity(text, Unit.DAYS, what="every")
    if not 1 <= days <= MOST_DAYS or days != int(days):
        raise BadInput(f"an interval is 1 to {MOST_DAYS} whole days, not {text}")
    return int(days)


def keys(book: Book, kind: EventKind, subjects: list[str]) -> list[dict[str, int | None]]:
    """The subjects as columns of the table; none named means the rhythm for all."""
    if not subjects:
        return [{"animal_id": None, "enclosure_id": None}]
    if kind.subject is Subject.ENCLOSURE:
        return [{"animal_id": None, "enclosure_id": book.enclosure(s).id} for s in subjects]
    return [{"animal_id": book.animal(s).id, "enclosure_id": None} for s in subjects]


def stored_id(book: Book, kind: str, about: dict[str, int | None]) -> int | None:
    """The number of the rhythm that is set for that kind and subject, if one is."""
    c = rhythm.c
    where = [
        c[name].is_(value) if value is None else c[name] == value for name, value in about.items()
    ]
    rows = book.rows(select(c.id).where(c.kind == kind, *where))
    return rows[0][0] if rows else None


def store(writer: StepWriter, kind: str, days: int, about: dict[str, int | None]) -> None:
    """Set or change one rhythm."""
    known = stored_id(writer.book, kind, about)
    if known is None:
        writer.insert(rhythm, kind=kind, days=days, **about)
    else:
        writer.change(rhythm, {"id": known}, days=days)


@app.command("list")
def list_rhythms(context: typer.Context) -> Answer:
    """List the rhythms."""
    columns = (
        Column("kind", "what"),
        Column("every", "every", Unit.DAYS),
        Column("whom", "for", Kind.CODE),
    )
    with session_of(context).read() as book:
        c = rhythm.c
        query = select(c.kind, c.days, c.animal_id, c.enclosure_id).order_by(c.kind, c.id)
        rows = tuple((kind, days, whom(book, a, e)) for kind, days, a, e in book.rows(query))
    hint = "no rhythm yet; set one: warmside rhythm set weighed --every 30"
    return Answer("Rhythms", (Table("rhythms", columns, rows, empty=hint),))


def whom(book: Book, animal_id: int | None, enclosure_id: int | None) -> str:
    """The subject's code, or `all`."""
    if animal_id is not None:
        return book.animals[animal_id].code
    return book.enclosures[enclosure_id].code if enclosure_id is not None else "all"


@app.command()
def drop(context: typer.Context, kind: KindName, subjects: Subjects = None) -> Answer:
    """Drop a rhythm, for all or for some."""
    session = session_of(context)
    with session.step(f"dropped rhythm {kind}") as writer:
        found = writer.book.host.kind(kind)
        for about in keys(writer.book, found, subjects or []):
            known = stored_id(writer.book, found.name, about)
            if known is None:
                raise NotFound(f"there is no such rhythm of {kind}; see: warmside rhythm list")
            writer.remove(rhythm, {"id": known})
    return said(f"dropped the rhythm of {found.title}", hints=["warmside undo (take it back)"])
