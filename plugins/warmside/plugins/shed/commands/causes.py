"""The command that asks why sheds go wrong."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Unit, parse_quantity, session_of
from warmside.plugins.shed.commands.typed import OnDay
from warmside.plugins.shed.reading.air import sheds_with_air
from warmside.plugins.shed.telling.causes import comparisons


def why(
    context: typer.Context,
    humidity: Annotated[
        str | None, typer.Option(help="Humidity that parts dry from moist air: 60%.")
    ] = None,
    misted: Annotated[
        int, typer.Option(help="How many mistings before a shed count as misted.")
    ] = 1,
    on: OnDay = None,
) -> Answer:
    """Whether sheds go wrong more often in dry air or without misting, across the collection."""
    session = session_of(context)
    with session.ask() as ask:
        sheds = sheds_with_air(ask.book, session.day(on, ask.book))
        dry_below = ask.setting("shed", "dry_below")
    if humidity is not None:
        dry_below = parse_quantity(humidity, Unit.PERCENT, what="humidity")
    return comparisons(sheds, dry_below, misted)
