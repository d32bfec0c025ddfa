"""Heat of a described enclosure in words: always a range, never in place of a thermometer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

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
from warmside.plugins.habitat.described.enclosure import Enclosure, Span
from warmside.plugins.habitat.heat.described import (
    Reach,
    coil_disc_mm,
    coils_within,
    floor_share,
    reach,
    warm_after_cut,
)

ISO = Source("ISO 6946:2017 with indoor air on both faces, as quoted", Mark.SECONDARY)
LUMPED = Source(
    "Newton's law of cooling with a third to all of its mass; specific heats", Mark.FROM_MEMORY
)
NO_THERMOMETER = (
    "Estimates never replace a thermometer: measure at the animal's place. No heat source without "
    "a thermostat, whatever these figures say; wiring is for a licensed electrician."
)
UNTIL_THEN = (
    "Until power is back keepers cover the enclosure, keep doors shut, warm the room, and do not "
    "feed; no flame and no hot bottle against the animal. Ask a vet if it was below its limit."
)
COVERED = (
    Column("heat", "heat source"),
    Column("floor", "of the floor", Unit.PERCENT),
    Column("coil", "a coil fits", Kind.YESNO),
)


class Asked(NamedTuple):
    """What the keeper asked: temperatures in degrees C, lengths in mm, price of a kWh."""

    room: float
    inside: float
    limit: float | None
    price: float | None
    length: float | None
    girth: float | None


def heat_parts(found: Enclosure, asked: Asked) -> tuple[Part, ...]:
    """Watts, cost, the floor that is covered, and a power cut."""
    can = reach(found, asked.inside, asked.room)
    parts = [*_watts(can, asked), *_cost(can.needed_w, asked), *_covered(found, asked)]
    parts += _cut(found, asked)
    return (*parts, *paragraphs(NO_THERMOMETER, tone=Tone.CAUTION))


def _watts(can: Reach, asked: Asked) -> Iterator[Part]:
    rule = f"all of it at {asked.inside:.1f} °C; walls as described, give or take a quarter"
    basis = Basis(rule, ISO)
    yield Fact("needed_low", "watts to hold it, from", can.needed_w.low, Unit.POWER)
    yield Fact("needed_high", "to", can.needed_w.high, Unit.POWER, basis)
    yield Fact("given", "its heat sources have", can.given_w, Unit.POWER)
    yield from paragraphs(_enough(can), _end(can))


def _enough(can: Reach) -> str:
    if can.given_w >= can.needed_w.high:
        return "That is enough to hold all of it so warm."
    if can.given_w < can.needed_w.low:
        return "That is not enough to hold all of it so warm; the warm side alone needs less."
    return "Whether that holds all of it so warm rests on how tight it is."


def _end(can: Reach) -> str:
    low, high = can.warmest_c
    return (
        f"Left on without a thermostat it would end at about {low:.0f} to {high:.0f} °C on "
        "average, and far hotter close to the source."
    )


def _cost(needed: Span, asked: Asked) -> Iterator[Part]:
    low, high = (w * 24 / 1000 for w in needed)
    words = f"About {_range(low, high, 1)} kWh a day"
    if asked.price is not None:
        words += f", {_range(30 * low * asked.price, 30 * high * asked.price, 0)} a month"
    yield from paragraphs(f"{words}, if the room stays so.")


def _covered(found: Enclosure, asked: Asked) -> Iterator[Part]:
    disc = coil_disc_mm(asked.length, asked.girth) if asked.length and asked.girth else None
    rows = tuple(
        (h.kind, 100 * floor_share(found, h), None if disc is None else coils_within(h, disc))
        for h in found.heats
        if h.kind != "room"
    )
    yield Table(
        "covered", COVERED, rows, "What the warmth covers", empty="no heat source described"
    )
    if disc is not None:
        yield from paragraphs(f"Coiled flat it takes a disc of about {disc / 10:.0f} cm or more.")


def _cut(found: Enclosure, asked: Asked) -> Iterator[Part]:
    if asked.limit is None:
        yield from paragraphs("For a power cut give the limit of your species: --limit 18C.")
        return
    hours = warm_after_cut(found, asked.inside, asked.room, asked.limit)
    if hours is None:
        yield from paragraphs("Without heat: the room itself is warm enough for that limit.")
        return
    basis = Basis(f"from {asked.inside:.1f} °C down to {asked.limit:.1f} °C", LUMPED)
    yield Fact("cut_low", "without heat above the limit, from", hours.least, Unit.HOURS)
    yield Fact("cut_high", "to", hours.most, Unit.HOURS, basis)
    yield from paragraphs(UNTIL_THEN, tone=Tone.CAUTION)


def _range(low: float, high: float, digits: int) -> str:
    least, most = f"{low:.{digits}f}", f"{high:.{digits}f}"
    return least if least == most else f"{least} to {most}"
