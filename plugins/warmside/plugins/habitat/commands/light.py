"""`warmside habitat light`: a switching table for a timer over the year."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of, shipped_species_named
from warmside.plugins.habitat.light.day_length import clock, weeks
from warmside.plugins.habitat.light.home import Home, home_of
from warmside.plugins.habitat.telling.light import light_parts

NOON = 12 * 60


def light(
    context: typer.Context,
    latitude: Annotated[
        float | None, typer.Option(help="Follow the days there: 48.2 north, -33.9 south.")
    ] = None,
    species: Annotated[
        str | None, typer.Option(help="Follow the days of its home: 'bearded dragon'.")
    ] = None,
    year: Annotated[
        int | None, typer.Option(help="Which year; else this one.", min=1990, max=2100)
    ] = None,
    least: Annotated[float, typer.Option(help="Never fewer hours.", min=0, max=24)] = 8.0,
    most: Annotated[float, typer.Option(help="Never more hours.", min=0, max=24)] = 14.0,
) -> Answer:
    """Hours of light by week: twelve, or those of the days at a latitude or a species' home."""
    if least > most:
        raise BadInput("--least is not more than --most")
    if latitude is not None and species is not None:
        raise BadInput("give --latitude or --species, not both")
    home = None if species is None else _home(species)
    latitude = home.middle if home else latitude
    shown = year or session_of(context).now.year
    rows = tuple(
        (w.begins, w.hours, clock(w.on_minute), clock(w.off_minute))
        for w in weeks(latitude, shown, NOON, least, most)
    )
    parts = light_parts(rows, latitude, (least, most), home)
    return Answer("Light over the year", parts)


def _home(species: str) -> Home:
    kept = shipped_species_named(species)
    found = home_of(kept.scientific)
    if found is None:
        raise NotFound(
            f"no home ships for {kept.scientific}, or one too wide to have one day; "
            "give the latitude of where its kind is from: --latitude -20"
        )
    return found
