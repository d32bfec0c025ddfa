"""`warmside rainlog`: set, list, show and drop rain chambers."""

from __future__ import annotations

from datetime import timedelta
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Column,
    Fact,
    Kind,
    NotFound,
    Table,
    Unit,
    parse_quantity,
    said,
    session_of,
)
from warmside_rainlog.rain import next_rain
from warmside_rainlog.reading import chambers, showers
from warmside_rainlog.records import RAINED
from warmside_rainlog.tables import chamber
from warmside_rainlog.telling import days_words, rain_table

app = typer.Typer(help="Rain chambers.", no_args_is_help=True)
MOST_DAYS = 60
MOST_MINUTES = 1440

Place = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]


@app.command("set")
def set_chamber(
    context: typer.Context,
    enclosure: Place,
    every: Annotated[str, typer.Option(help="Days between, such as 2 or 1w.")],
    minutes: Annotated[int, typer.Option(help="How long it should rain.")] = 20,
) -> Answer:
    """Make an enclosure a rain chamber, or change how often it rains there."""
    days = parse_quantity(every, Unit.DAYS, what="every")
    if not 1 <= days <= MOST_DAYS or days != int(days):
        raise BadInput(f"--every is 1 to {MOST_DAYS} whole days, not {every}")
    if not 1 <= minutes <= MOST_MINUTES:
        raise BadInput(f"--minutes is 1 to {MOST_MINUTES}, not {minutes}")
    session = session_of(context)
    with session.step(f"rain in {enclosure}") as writer:
        place = writer.book.enclosure(enclosure)
        key, values = {"enclosure_id": place.id}, {"days": int(days), "minutes": minutes}
        if any(c.enclosure_id == place.id for c in chambers(writer.book)):
            writer.change(chamber, key, **values)
        else:
            writer.insert(chamber, **key, **values, since=writer.book.today.isoformat())
        words = f"rain in {place.code}: {minutes} min {days_words(int(days))}"
        writer.say(words)
    return said(words, hints=["warmside undo (take it back)"])


@app.command("list")
def list_chambers(context: typer.Context) -> Answer:
    """List the rain chambers and when it should rain again."""
    columns = (
        Column("enclosure", "in", Kind.CODE),
        Column("every", "every", Unit.DAYS),
        Column("minutes", "minutes", Unit.COUNT),
        Column("next", "next", Kind.DATE),
    )
    with session_of(context).read() as book:
        last = book.latest_in(RAINED.name)[RAINED.name]
        rows = tuple(
            (
                book.enclosures[c.enclosure_id].code,
                c.days,
                c.minutes,
                next_rain(c, last[c.enclosure_id].day if c.enclosure_id in last else None),
            )
            for c in chambers(book)
        )
    hint = "no rain chamber yet; set one: warmside rainlog set ENCLOSURE --every 2"
    return Answer("Rain chambers", (Table("chambers", columns, rows, empty=hint),))


@app.command()
def show(
    context: typer.Context,
    enclosure: Place,
    days: Annotated[int, typer.Option(help="The last so many days.")] = 14,
) -> Answer:
    """Show how long it rained in an enclosure."""
    if not 1 <= days <= 366:
        raise BadInput(f"--days is 1 to 366, not {days}")
    with session_of(context).read() as book:
        place = book.enclosure(enclosure)
        first = book.today - timedelta(days=days - 1)
        found = showers(book, first, book.today, place.id)
    total = Fact("minutes", "minutes in all", sum(s.minutes for s in found), Unit.COUNT)
    return Answer(f"Rain in {place.name} ({place.code})", (total, rain_table(found)))


@app.command()
def drop(context: typer.Context, enclosure: Place) -> Answer:
    """An enclosure is no rain chamber any more; what was logged stays."""
    session = session_of(context)
    with session.step(f"no rain in {enclosure}") as writer:
        place = writer.book.enclosure(enclosure)
        if all(c.enclosure_id != place.id for c in chambers(writer.book)):
            raise NotFound(f"{place.code} is no rain chamber; see: warmside rainlog list")
        writer.remove(chamber, {"enclosure_id": place.id})
        writer.say(f"no more rain in {place.code}")
    return said(f"no more rain in {place.code}", hints=["warmside undo (take it back)"])
