"""The hours of light over a year as a table for a timer, and what they follow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    Basis,
    Column,
    Fact,
    Kind,
    Mark,
    Part,
    Source,
    Table,
    Tone,
    Unit,
    paragraphs,
)
from warmside.plugins.habitat.light.day_length import PLAIN_HOURS
from warmside.plugins.habitat.light.home import Home

SUN = Source("astral, from the sun's place by the NOAA equations", Mark.SECONDARY)
CUSTOM = Source("keepers' custom", Mark.COMMON_PRACTICE)
NOTE = "A seasonal day is a choice, not a duty; change the timer in small steps, and heat with it."
SOUTH = (
    "The longest days there are in December. Who keeps it in the north and wants its summer in the "
    "summer of the room types the same latitude as a northern one."
)
COLUMNS = (
    Column("week", "week from", Kind.DATE),
    Column("hours", "light", Unit.HOURS),
    Column("on", "on"),
    Column("off", "off"),
)

WeekRow = tuple[date, float, str, str]


def light_parts(
    weeks: Sequence[WeekRow],
    latitude: float | None,
    kept_within: tuple[float, float],
    home: Home | None,
) -> tuple[Part, ...]:
    """The longest and the shortest day, the home that they are of, and the table by week."""
    basis = _basis(latitude, kept_within)
    hours = [row[1] for row in weeks]
    facts = (
        Fact("most_hours", "longest day", max(hours), Unit.HOURS),
        Fact("least_hours", "shortest day", min(hours), Unit.HOURS, basis),
    )
    table = Table("weeks", COLUMNS, tuple(weeks))
    south = paragraphs(SOUTH) if latitude is not None and latitude < 0 else ()
    return (*_home(home), *facts, *south, table, *paragraphs(NOTE, tone=Tone.CAUTION))


def _home(home: Home | None) -> Iterator[Part]:
    if home is not None:
        rule = f"half way from {_degrees(home.south)} to {_degrees(home.north)}"
        yield Fact("home", "its home", home.where, Kind.TEXT, Basis(rule, home.source))


def _degrees(latitude: float) -> str:
    return f"{abs(latitude):g}° {'north' if latitude >= 0 else 'south'}"


def _basis(latitude: float | None, kept_within: tuple[float, float]) -> Basis:
    if latitude is None:
        return Basis(f"{PLAIN_HOURS:g} hours all year, the plain default", CUSTOM)
    least, most = kept_within
    rule = f"sunrise to sunset at {_degrees(latitude)}, kept within {least:g} and {most:g} hours"
    return Basis(rule, SUN)
