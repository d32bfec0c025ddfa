"""Targets of a description that do not go with who lives there."""

from __future__ import annotations

from datetime import date

from warmside.api import Ask
from warmside.plugins.habitat.described.checks import warmer_than_warm
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.reading.wanted import figures_of, inside


def warm_cool_side(ask: Ask, enclosure_id: int, on: date, found: Enclosure) -> str:
    """In words, where a cool side is to be warmer than the warm side of an animal inside."""
    for animal in inside(ask, enclosure_id, on):
        figures = figures_of(ask, animal)
        if figures is None or figures.warm is None:
            continue
        if zone := warmer_than_warm(found, (figures.warm.low, figures.warm.high)):
            kind = ask.book.animals[animal].species.common
            span = f"{figures.warm.low:g} to {figures.warm.high:g} °C"
            return f"{zone!r} is to be warmer than the warm side of a {kind} ({span})"
    return ""
