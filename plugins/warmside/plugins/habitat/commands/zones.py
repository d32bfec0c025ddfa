"""`warmside habitat zones` and `day`: what was measured over some days, and over the hours."""

from __future__ import annotations

from datetime import timedelta
from typing import Annotated

import typer

from warmside.api import Answer, NotFound, session_of

OnDay = Annotated[str | None, typer.Option("--on", help="The day; today, if none is named.")]
Place = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]


def zones(
    context: typer.Context,
    enclosure: Place,
    last: Annotated[int, typer.Option(help="How many days back.", min=1, max=3660)] = 14,
    on: OnDay = None,
) -> Answer:
    """Least, middle and most of each zone by day and night, hours outside the target, gaps."""
    from warmside.plugins.habitat.reading.zones_here import measured
    from warmside.plugins.habitat.telling.zones import zone_parts

    session = session_of(context)
    with session.ask() as ask:
        until, place = session.day(on, ask.book), ask.book.enclosure(enclosure)
        first = until - timedelta(days=last - 1)
        found = measured(ask, place.id, first, until)
    if not found:
        raise NotFound(f"no logger measured anything in {place.code} from {first} to {until}")
    return Answer(f"{place.name} ({place.code}), {first} to {until}", zone_parts(found))


def day(context: typer.Context, enclosure: Place, on: OnDay = None) -> Answer:
    """The air of each zone over the hours of a day."""
    from warmside.plugins.habitat.reading.zones_here import curves
    from warmside.plugins.habitat.telling.zones import day_curve

    session = session_of(context)
    with session.ask() as ask:
        when, place = session.day(on, ask.book), ask.book.enclosure(enclosure)
        found, zone = curves(ask, place.id, when), ask.book.home.zone
    if not found:
        raise NotFound(f"no logger measured the air in {place.code} on {when}")
    return Answer(f"{place.name} ({place.code})", (day_curve(when, found, zone),))
