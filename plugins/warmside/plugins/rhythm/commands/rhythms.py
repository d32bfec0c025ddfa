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
    every_days,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.rhythm.intervals.next_time import (
    ALL,
    CLEANED,
    FULL,
    SPOT,
    Rhythm,
    usual_extent,
)
from warmside.plugins.rhythm.reading import rhythms, stored
from warmside.plugins.rhythm.tables import rhythm
from warmside.plugins.rhythm.telling import table, title

app = typer.Typer(help="How often something is done.", no_args_is_help=True)
MOST_DAYS = 3650
EXTENTS = (SPOT, FULL)

KindName = Annotated[str, typer.Argument(help="Kind of event: weighed, cleaned, watered …")]
Subjects = Annotated[
    list[str] | None, typer.Argument(help="Animals or enclosures; none means all.")
]

Extent = Annotated[
    str, typer.Option(help="For cleaned: spot or full; else full from 14 days between on.")
]


@app.command("set")
def set_rhythm(
    context: typer.Context,
    kind: KindName,
    subjects: Subjects = None,
    every: Annotated[str, typer.Option(help="Days between: 30 or 4w.")] = "",
    extent: Extent = "",
) -> Answer:
    """Set how often something is done, for all or for some.

    A spot clean and a full one have each their own rhythm; a full clean counts as both.
    """
    session = session_of(context)
    if not every:
        raise BadInput("name the interval: --every 30")
    days = whole_days(every)
    with session.step(f"rhythm {kind}") as writer:
        found = session.asking(writer.book).kind(kind)
        much = extent_of(found.name, extent) or usual_extent(found.name, days)
        for about in named(writer.book, found, subjects or []):
            store(writer, Rhythm(found.name, days, about, much))
        whom = ", ".join(subjects) if subjects else "all"
        what = title(found, Rhythm(found.name, days, named=much))
        writer.say(f"rhythm: {what} {every_days(days)} for {whom}")
    return said(
        f"{what} is due {every_days(days)} for {whom}", hints=["warmside today (the round)"]
    )


@app.command("list")
def list_rhythms(context: typer.Context) -> Answer:
    """List the rhythms."""
    with session_of(context).read() as book:
        return Answer("Rhythms", (table(book, rhythms(book)),))


@app.command()
def drop(
    context: typer.Context, kind: KindName, subjects: Subjects = None, extent: Extent = ""
) -> Answer:
    """Drop a rhythm, for all or for some; of cleaning both, or the one of an extent."""
    session = session_of(context)
    with session.step(f"dropped rhythm {kind}") as writer:
        found = session.asking(writer.book).kind(kind)
        for about in named(writer.book, found, subjects or []):
            remove(writer, found.name, about, extent_of(found.name, extent))
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


def extent_of(kind: str, extent: str) -> str:
    """An extent that was typed, if any; raises BadInput where it is none or the kind has none."""
    if extent and kind != CLEANED:
        raise BadInput(f"only cleaned has an extent, not {kind}: leave out --extent")
    if extent and extent not in EXTENTS:
        raise BadInput(f"an extent is {' or '.join(EXTENTS)}, not {extent!r}")
    return extent


def store(writer: StepWriter, new: Rhythm) -> None:
    """Set one rhythm, or change the one of the same kind, subject and extent."""
    extent = new.extent or None
    for number, known in stored(writer.book).items():
        if (known.kind, known.about, known.extent) == (new.kind, new.about, new.extent):
            writer.change(rhythm, {"id": number}, days=new.days, extent=extent)
            return
    whom = {"animal_id": new.about.animal_id, "enclosure_id": new.about.enclosure_id}
    writer.insert(rhythm, kind=new.kind, days=new.days, extent=extent, **whom)


def remove(writer: StepWriter, kind: str, about: About, extent: str) -> None:
    """Drop the rhythms of a kind and a subject, or the one of an extent; raises NotFound."""
    found = [
        number
        for number, known in stored(writer.book).items()
        if (known.kind, known.about) == (kind, about) and extent in ("", known.extent)
    ]
    if not found:
        raise NotFound(f"there is no such rhythm of {kind}; see: warmside rhythm list")
    for number in found:
        writer.remove(rhythm, {"id": number})
