"""Heat of a described enclosure in words: always a range, never in place of a thermometer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from warmside.api import (
    OWN_RECORDS,
    Basis,
    Display,
    Fact,
    Mark,
    Part,
    Source,
    Tone,
    Unit,
    format_quantity,
    paragraphs,
)
from warmside.plugins.habitat.described.enclosure import Enclosure, Span
from warmside.plugins.habitat.heat.by_zone import watts_by_zone, watts_together, zones_fill
from warmside.plugins.habitat.heat.covered import Coil
from warmside.plugins.habitat.heat.described import Reach, reach, u_values
from warmside.plugins.habitat.heat.materials import materials
from warmside.plugins.habitat.heat.metered import Metered
from warmside.plugins.habitat.telling.covered import covered_parts
from warmside.plugins.habitat.telling.powercut import Limited, cut_parts
from warmside.plugins.habitat.telling.spans_by_zone import SpanRow, spans_by_zone

ISO = Source("ISO 6946:2017 with indoor air on both faces, as quoted", Mark.SECONDARY)
NO_THERMOMETER = (
    "Estimates never replace a thermometer: measure at the animal's place. No heat source without "
    "a thermostat, whatever these figures say; wiring is for a licensed electrician."
)


class Asked(NamedTuple):
    """What the keeper asked: temperatures in degrees C, price of a kWh."""

    room: float
    inside: float
    limit: float | None
    price: float | None


class Heated(NamedTuple):
    """What heat rests on: the temperature to hold in each zone, what was metered when, and the
    snakes that are to lie in it, and how cold it may be for who lives there."""

    zones_c: Mapping[str, float]
    metered: Metered | None
    metered_on: date | None
    coils: tuple[Coil, ...] = ()
    limit_c: float | None = None


def heat_parts(
    found: Enclosure, asked: Asked, heated: Heated, display: Display
) -> tuple[Part, ...]:
    """Watts, by zone and as metered, cost, the floor that is covered, and a power cut."""
    can = reach(found, asked.inside, asked.room)
    by_zone = watts_by_zone(found, heated.zones_c, asked.room) if zones_fill(found) else {}
    together = watts_together(found, by_zone)
    parts = [*_walls(found, display), *_watts(can, asked), *_by_zone(by_zone, together, heated)]
    if can.given_w:
        parts += paragraphs(_enough(can, together), _end(can))
    parts += _metered(asked, heated)
    parts += [*_cost(together or can.needed_w, asked, heated)]
    parts += covered_parts(found, heated.coils, display)
    parts += cut_parts(found, asked.room, _limited(asked, heated), heated.zones_c)
    return (*parts, *paragraphs(NO_THERMOMETER, tone=Tone.CAUTION))


def _limited(asked: Asked, heated: Heated) -> Limited | None:
    """Down to which temperature a power cut is safe, and who says so."""
    if asked.limit is not None:
        return Limited(asked.limit, "as typed")
    if heated.limit_c is None:
        return None
    return Limited(heated.limit_c, "the safe limit of who lives there")


def _watts(can: Reach, asked: Asked) -> Iterator[Part]:
    rule = f"all of it at {asked.inside:.1f} °C; walls as described, give or take a quarter"
    basis = Basis(rule, ISO)
    yield Fact("needed_low", "watts to hold it, from", can.needed_w.low, Unit.POWER)
    yield Fact("needed_high", "to", can.needed_w.high, Unit.POWER, basis)
    yield Fact("given", "its heat sources have", can.given_w, Unit.POWER)


def _walls(found: Enclosure, display: Display) -> Iterator[Part]:
    """What the walls let through, with where the figures of their material are from."""
    low, high = u_values(found, "side")
    thick, made = format_quantity(found.wall_mm, Unit.LENGTH, display), materials()[found.wall]
    span = " to ".join(f"{c:g}" for c in made.conductivity)
    basis = Basis(f"{thick} of {found.wall}, {span} W/mK", made.source)
    yield Fact("wall_low", "its walls let through, from", low, Unit.HEAT_TRANSFER)
    yield Fact("wall_high", "to", high, Unit.HEAT_TRANSFER, basis)


def _enough(can: Reach, together: Span | None) -> str:
    """Whether its sources hold it: each zone as it should be, or all of it as warm."""
    needed = together or can.needed_w
    what = "each zone as warm as it should be" if together else "all of it so warm"
    if can.given_w >= needed.high:
        return f"Its sources are enough to hold {what}."
    if can.given_w < needed.low:
        return f"Its sources are not enough to hold {what} in that room."
    return f"Whether they hold {what} rests on how tight it is."


def _end(can: Reach) -> str:
    low, high = can.warmest_c
    return (
        f"Left on without a thermostat it would end at about {low:.0f} to {high:.0f} °C on "
        "average, and far hotter close to the source."
    )


def _by_zone(by_zone: Mapping[str, Span], together: Span | None, heated: Heated) -> Iterator[Part]:
    """Each zone at its own temperature; all of them together where each is known."""
    rows: list[SpanRow] = [(z, heated.zones_c[z], *w) for z, w in by_zone.items()]
    if together is not None and len(rows) > 1:
        rows.append(("all together", None, *together))
    if rows:
        title = "Zone by zone, each at its own temperature"
        yield spans_by_zone("by_zone", title, ("held at", "watts from"), Unit.POWER, rows)


def _metered(asked: Asked, heated: Heated) -> Iterator[Part]:
    """What was measured counts before what is reckoned."""
    if heated.metered is None or heated.metered_on is None:
        return
    basis = Basis(f"metered on {heated.metered_on}, before any estimate", OWN_RECORDS)
    yield Fact("metered", "it used on average", heated.metered.watts, Unit.POWER, basis)
    there = heated.metered.at(asked.inside, asked.room)
    if there is not None:
        rule = "what it used, by the difference to the room then and now"
        title = f"so at {asked.inside:.1f} °C in this room"
        yield Fact("metered_here", title, there, Unit.POWER, Basis(rule, OWN_RECORDS))


def _cost(needed: Span, asked: Asked, heated: Heated) -> Iterator[Part]:
    here = heated.metered.at(asked.inside, asked.room) if heated.metered else None
    span = needed if here is None else Span(here, here)
    low, high = (w * 24 / 1000 for w in span)
    words = f"About {_range(low, high, 1)} kWh a day"
    if asked.price is not None:
        words += f", {_range(30 * low * asked.price, 30 * high * asked.price, 0)} a month"
    yield from paragraphs(f"{words}, if the room stays so.")


def _range(low: float, high: float, digits: int) -> str:
    least, most = f"{low:.{digits}f}", f"{high:.{digits}f}"
    return least if least == most else f"{least} to {most}"
