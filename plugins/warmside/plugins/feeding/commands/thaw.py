"""`warmside feeding thaw`: the prey to take out of the freezer for the next round."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Annotated

import typer

from warmside.api import Answer, Ask, Column, Kind, Refused, Table, Tone, Unit, Words, session_of
from warmside.plugins.feeding.care.cautions import DEAD, HANDS, LAW, THAW
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.due import due_animals
from warmside.plugins.feeding.reading.noted import is_thawed
from warmside.plugins.feeding.stock.thaw import ThawLine
from warmside.plugins.feeding.tables import thawed
from warmside.plugins.feeding.tasks.making_ready import (
    newly_due,
    still_to_thaw,
    thawed_words,
    to_thaw,
)
from warmside.plugins.feeding.telling.plan import cautioned

COLUMNS = (
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("count", "count", Unit.COUNT),
    Column("animals", "animals", Unit.COUNT),
)


def thaw(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="The round to thaw for; else tomorrow's.")] = None,
    done: Annotated[bool, typer.Option("--done", help="It is out of the freezer.")] = False,
) -> Answer:
    """One list of prey to thaw, the evening before a round."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book) if on else ask.book.today + timedelta(days=1)
        out = is_thawed(ask.book, day)
        lines, now = _lines(ask, day), still_to_thaw(Reading(ask, ask.book.today))
    if done and out:
        raise Refused(f"the prey for {day} is noted as thawed already")
    rows = tuple((x.prey.code, x.prey.name, x.count, x.animals) for x in lines)
    if done:
        with session.step(thawed_words(day)) as writer:
            writer.insert(thawed, day=day.isoformat())
    empty = f"the prey for {day} is out of the freezer" if out else f"nothing to thaw for {day}"
    note = [Words("warmside feeding thaw --done (when it is out)", Tone.HINT)] if rows else []
    if now and not on:
        note.append(Words("warmside feeding thaw --on today (for what is due now)", Tone.HINT))
    if done:
        note = [Words("noted; warmside undo (take it back)", Tone.HINT)]
    cautions = cautioned((THAW, HANDS, DEAD, LAW)) if rows else ()
    table = Table("thaw", COLUMNS, rows, empty=empty, ticks=True)
    return Answer(f"To thaw for {day}", (table, *note, *cautions))


def _lines(ask: Ask, day: date) -> tuple[ThawLine, ...]:
    """For today all that is due; for a day to come what is due from then on."""
    if day <= ask.book.today:
        return still_to_thaw(Reading(ask, day))
    reading = Reading(ask, day - timedelta(days=1))
    return to_thaw(reading, newly_due(reading, due_animals(reading, reading.on)))
