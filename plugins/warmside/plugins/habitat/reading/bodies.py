"""The lengths and masses of an animal, by its own record and by declared answers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from warmside.api import About, Ask, Basis, Estimate, Event, LifeStage, Unit
from warmside.plugins.habitat.reading.wanted import figures_of
from warmside.plugins.habitat.space.growing import (
    FAMILIES,
    TAPE,
    Body,
    Known,
    Range,
    body,
    length_by_tape,
)

BACK_DAYS = (180, 120, 60)
"""So far back a mass is asked for, the farthest that is known counts."""


def body_of(ask: Ask, animal_id: int, on: date) -> Body | None:
    """Length, growth and grown length; its length as is answered, the narrowest answer first."""
    known = known_body(ask, animal_id, on)
    answered = ask.answers("length", About(animal_id), on)
    if answered:
        given = answered[0].estimate
        known = replace(known, answered=Range(given.low, given.high))
    return body(known)


def length_now(ask: Ask, animal_id: int, on: date) -> Iterator[Estimate]:
    """How long it is by its own record.

    Nothing where it was never measured, or long ago while it may have grown, and was not weighed.
    """
    known = known_body(ask, animal_id, on)
    now = length_by_tape(known)
    if now is None or (known.is_dated and ask.stage(animal_id, on).stage is not LifeStage.ADULT):
        return
    event = next(e for e in reversed(_measured(ask, animal_id, on)) if e.data.get("total_mm"))
    rule = f"measured on {event.day}, give or take {TAPE:.0%}, and grown since as its mass says"
    yield Estimate(None, *now, Unit.LENGTH, Basis(rule, FAMILIES, (event.id,)))


def known_body(ask: Ask, animal_id: int, on: date) -> Known:
    """What is on record of an animal's size on a day."""
    lengths = tuple(_lengths(ask, animal_id, on))
    then = _mass(ask, animal_id, on - timedelta(days=lengths[-1][0])) if lengths else None
    days, before = _before(ask, animal_id, on)
    now = _mass(ask, animal_id, on)
    return Known(lengths, then, now, before, days, _adult(ask, animal_id, on))


def vent_share(ask: Ask, animal_id: int, on: date) -> float | None:
    """Nose to vent over the whole length, as both were last measured at once."""
    for event in reversed(_measured(ask, animal_id, on)):
        total, vent = event.data.get("total_mm"), event.data.get("snout_vent_mm")
        if total and vent:
            return float(vent) / float(total)
    return None


def _lengths(ask: Ask, animal_id: int, on: date) -> Iterator[tuple[int, float]]:
    """Days ago and whole length, oldest first."""
    for event in _measured(ask, animal_id, on):
        if total := event.data.get("total_mm"):
            yield (on - event.day).days, float(total)


def _measured(ask: Ask, animal_id: int, on: date) -> list[Event]:
    return ask.book.events("measured", animal=animal_id, until=on)


def _mass(ask: Ask, animal_id: int, on: date) -> float | None:
    found = ask.answers("mass", About(animal_id), on)
    return found[0].estimate.value if found else None


def _before(ask: Ask, animal_id: int, on: date) -> tuple[int, float | None]:
    for days in BACK_DAYS:
        if (mass := _mass(ask, animal_id, on - timedelta(days=days))) is not None:
            return days, mass
    return 0, None


def _adult(ask: Ask, animal_id: int, on: date) -> Range | None:
    """What it weighs when grown: by its own growth, else as its species and sex do."""
    answered = ask.answers("adult mass", About(animal_id), on)
    if answered:
        given = answered[0].estimate
        return Range(given.low, given.high)
    figures = figures_of(ask, animal_id)
    sizes = figures.adult_g if figures else {}
    sex = ask.book.animals[animal_id].sex
    spans = [sizes[sex]] if sex in sizes else list(sizes.values())
    if not spans:
        return None
    return Range(min(s.low for s in spans), max(s.high for s in spans))
