"""How much room the snakes of an enclosure take when they lie coiled, by what is on record."""

from __future__ import annotations

from datetime import date

from warmside.api import About, Ask
from warmside.plugins.habitat.heat.covered import Coil, coil_of
from warmside.plugins.habitat.reading.wanted import figures_of, inside
from warmside.plugins.habitat.space.growing import OLDEST_DAYS, TAPE


def coils_inside(ask: Ask, enclosure_id: int, on: date) -> tuple[Coil, ...]:
    """The coil of each snake inside whose length and girth are known, girths of a year or so."""
    found = (_coil(ask, animal, on) for animal in inside(ask, enclosure_id, on))
    return tuple(coil for coil in found if coil is not None)


def _coil(ask: Ask, animal_id: int, on: date) -> Coil | None:
    figures = figures_of(ask, animal_id)
    answered = ask.answers("length", About(animal_id), on)
    girth = _girth(ask, animal_id, on)
    if figures is None or figures.form.value != "snake" or not answered or girth is None:
        return None
    length = answered[0].estimate
    ends = (girth * (1 - TAPE), girth * (1 + TAPE))
    return coil_of(ask.book.animals[animal_id].code, (length.low, length.high), ends)


def _girth(ask: Ask, animal_id: int, on: date) -> float | None:
    for event in reversed(ask.book.events("measured", animal=animal_id, until=on)):
        if (on - event.day).days <= OLDEST_DAYS and (girth := event.data.get("girth_mm")):
            return float(girth)
    return None
