"""The commands that set, list and drop rhythms."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated

import typer

from warmside.api import (
    About,
    Answer,
    BadInput,
    Book,
    EventKind,
    NotFound,
    StepWriter,
    Subject,
    Unit,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.rhythm.intervals.next_time import ALL
from warmside.plugins.rhythm.reading import rhythms, stored_id
from warmside.plugins.rhythm.tables import rhythm
from warmside.plugins.rhythm.telling import table

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
        found = session.asking(writer.book).kind(kind)
        for about in named(writer.book, found, subjects or []):
            store(writer, found.name, days, about)
        whom = ", ".join(subjects) if subjects else "all"
        writer.say(f"rhythm: {found.title} every {days} days for {whom}")
    return said(
        f"{found.title} is due every {days} days for {whom}", hints=["warmside today (the round)"]
    )


@app.command("list")
def list_rhythms(context: typer.Context) -> Answer:
    """List the rhythms."""
    with session_of(context).read() as book:
        return Answer("Rhythms", (table(book, rhythms(book)),))


@app.command()
def drop(context: typer.Context, kind: KindName, subjects: Subjects = None) -> Answer:
    """Drop a rhythm, for all or for some."""
    session = session_of(context)
    with session.step(f"dropped rhythm {kind}") as writer:
        found = session.asking(writer.book).kind(kind)
        for about in named(writer.book, found, subjects or []):
            remove(writer, found.name, about)
    return said(f"dropped the rhythm of {found.title}", hints=["warmside undo (take it back)"])


def whole_days(text: str) -> int:
    """An interval in whole days; raises BadInput outside 1 day to 10 years."""
    days = parse_quantity(text, Unit.DAYS, what="every")
    if not 1 <= days <= MOST_DAYS or days != int(days):
        raise BadInput(f"an interval is 1 to {MOST_DAYS} whole days, not {text}")
    return int(days)


def named(book: Book, kind: EventKind, subjects: Iterable[str]) -> list[About]:
    """The subjects that were typed; none named means the rhythm for all."""
    if kind.subject is Subject.ENCLOSURE:
        found = [About(enclosure_id=book.enclosure(s).id) for s in subjects]
    else:
        found = [About(animal_id=book.animal(s).id) for s in subjects]
    return found or [ALL]


def store(writer: StepWriter, kind: str, days: int, about: About) -> None:
    """Set or change one rhythm."""
    known = stored_id(writer.book, kind, about)
    if known is not None:
        writer.change(rhythm, {"id": known}, days=days)
        return
    whom = {"animal_id": about.animal_id, "enclosure_id": about.enclosure_id}
    writer.insert(rhythm, kind=kind, days=days, **whom)


def remove(writer: StepWriter, kind: str, about: About) -> None:
    """Drop one rhythm; raises NotFound where there is none."""
    known = stored_id(writer.book, kind, about)
    if known is None:
        raise NotFound(f"there is no such rhythm of {kind}; see: warmside rhythm list")
    writer.remove(rhythm, {"id": known})
