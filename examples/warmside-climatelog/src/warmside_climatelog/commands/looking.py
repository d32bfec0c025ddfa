"""The commands that show a day of an enclosure, and the days of a sensor."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of
from warmside_climatelog import reading
from warmside_climatelog.telling.curves import days_band
from warmside_climatelog.telling.day import day_parts
from warmside_climatelog.telling.words import day_table

MOST_DAYS = 3660

OnDay = Annotated[str | None, typer.Option("--on", help="The day; today, if none is named.")]


def day(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    on: OnDay = None,
) -> Answer:
    """Show a day of an enclosure: its curve over the hours, and where the sensors hang."""
    session = session_of(context)
    with session.ask() as ask:
        when, place = session.day(on, ask.book), ask.book.enclosure(enclosure)
        if not reading.sensors_in(ask.book, place.id, when):
            hint = f"hang one: warmside climatelog add {place.code} NAME"
            raise NotFound(f"{place.code} has no sensor on {when}; {hint}")
        parts = day_parts(reading.day_here(ask, place.id, when))
    return Answer(f"{place.name} ({place.code})", parts)


def days(
    context: typer.Context,
    sensor: Annotated[str, typer.Argument(help="Name of the sensor.")],
    last: Annotated[int, typer.Option(help="How many days back.")] = 30,
    on: OnDay = None,
) -> Answer:
    """Show the lowest and the highest reading of each day."""
    if not 1 <= last <= MOST_DAYS:
        raise BadInput(f"--last is 1 to {MOST_DAYS} days, not {last}")
    session = session_of(context)
    with session.read() as book:
        found = reading.sensor_named(book, sensor)
        known = reading.days(book, found, last, session.day(on, book))
    chart = (days_band(found, known),) if known else ()
    return Answer(found.name, (*chart, day_table(found, known)))
