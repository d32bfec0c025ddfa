"""`warmside habitat light`: a switching table for a timer over the year."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Basis,
    Column,
    Fact,
    Kind,
    Mark,
    Source,
    Table,
    Tone,
    Unit,
    paragraphs,
    session_of,
)
from warmside.plugins.habitat.light.day_length import PLAIN_HOURS, clock, weeks

SUN = Source("astral, from the sun's place by the NOAA equations", Mark.SECONDARY)
CUSTOM = Source("keepers' custom", Mark.COMMON_PRACTICE)
NOTE = "A seasonal day is a choice, not a duty; change the timer in small steps, and heat with it."
NOON = 12 * 60


def light(
    context: typer.Context,
    latitude: Annotated[
        float | None, typer.Option(help="Follow the days there: 48.2 north, -33.9 south.")
    ] = None,
    year: Annotated[
        int | None, typer.Option(help="Which year; else this one.", min=1990, max=2100)
    ] = None,
    least: Annotated[float, typer.Option(help="Never fewer hours.", min=0, max=24)] = 8.0,
    most: Annotated[float, typer.Option(help="Never more hours.", min=0, max=24)] = 14.0,
) -> Answer:
    """Hours of light by week: twelve, or those of the days at a latitude."""
    if least > most:
        raise BadInput("--least is not more than --most")
    shown = year or session_of(context).now.year
    rows = tuple(
        (w.begins, w.hours, clock(w.on_minute), clock(w.off_minute))
        for w in weeks(latitude, shown, NOON, least, most)
    )
    if latitude is None:
        basis = Basis(f"{PLAIN_HOURS:g} hours all year, the plain default", CUSTOM)
    else:
        basis = Basis(f"sunrise to sunset at {latitude:g}, {least:g} to {most:g} hours", SUN)
    columns = (
        Column("week", "week from", Kind.DATE),
        Column("hours", "light", Unit.HOURS),
        Column("on", "on"),
        Column("off", "off"),
    )
    longest = Fact("most_hours", "longest day", max(r[1] for r in rows), Unit.HOURS, basis)
    table = Table("weeks", columns, rows)
    return Answer("Light over the year", (longest, table, *paragraphs(NOTE, tone=Tone.CAUTION)))
