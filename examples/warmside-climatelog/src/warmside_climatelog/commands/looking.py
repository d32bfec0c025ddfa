"""The commands that show a day of an enclosure, and the days of a sensor."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, counted, said, session_of
from warmside_climatelog import reading
from warmside_climatelog.telling.curves import days_band, readings_bars, recent_curve
from warmside_climatelog.telling.day import day_parts
from warmside_climatelog.telling.words import day_table

MOST_DAYS, MOST_HOURS = 3660, 744

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
    drawn = (days_band(found, known), readings_bars(found, known)) if known else ()
    return Answer(found.name, (*drawn, day_table(found, known)))


def recent(
    context: typer.Context,
    sensor: Annotated[str, typer.Argument(help="Name of the sensor.")],
    hours: Annotated[int, typer.Option(help="How many hours back.")] = 72,
) -> Answer:
    """Show how the last hours went on, across midnight."""
    if not 1 <= hours <= MOST_HOURS:
        raise BadInput(f"--hours is 1 to {MOST_HOURS}, not {hours}")
    with session_of(context).read() as book:
        found = reading.sensor_named(book, sensor)
        quarters = reading.recent(book, found, hours)
    if not quarters:
        return said(f"{found.name} has no reading of the last {counted(hours, 'hour')}")
    return Answer(found.name, (recent_curve(found, quarters),))
