"""The spans that an enclosure should keep: the keeper's own, else those of who lives there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import About, Ask, SpeciesFigures
from warmside.plugins.habitat.gradient.alarms import Limits
from warmside.plugins.habitat.gradient.targets import Span, Wanted
from warmside.plugins.habitat.light.uv import basking_span

SPANS = ("warm", "cool", "humidity", "uv")


def inside(ask: Ask, enclosure_id: int, on: date) -> tuple[int, ...]:
    """The animals that live in an enclosure on a day."""
    return ask.book.occupants(on).get(enclosure_id, ())


def wanted(ask: Ask, enclosure_id: int, on: date) -> Wanted:
    """What all that live there can share: the part that is in the spans of each of them."""
    animals = inside(ask, enclosure_id, on)
    warm, cool, humidity, uv = (_shared(ask, name, enclosure_id, animals) for name in SPANS)
    night = _bound(ask, "night", "least", enclosure_id, animals)
    return Wanted(warm, cool, night, humidity, uv)


def lights(ask: Ask, enclosure_id: int) -> tuple[float, float]:
    """The hours of the clock at which the lights of an enclosure go on and off."""
    about = About(enclosure_id=enclosure_id)
    on, off = (ask.value("habitat", name, about).value for name in ("lights_on", "lights_off"))
    return float(on), float(off)


def limits(ask: Ask, enclosure_id: int, on: date, wanted: Wanted) -> Limits:
    """The safe limits of the most sensitive of those who live there; none of an empty place.

    Of animals in winter cooling nothing is too cold.
    """
    animals = inside(ask, enclosure_id, on)
    found = {a: f.limits for a in animals if (f := figures_of(ask, a)) and f.limits}
    warm = {a: x for a, x in found.items() if not _cooled(ask, a, on)}
    return Limits(
        min((x.hot_act for x in found.values()), default=None),
        max((x.cold_act for x in warm.values()), default=None),
        wanted.warm[0] if wanted.warm and len(warm) == len(animals) > 0 else None,
    )


def _cooled(ask: Ask, animal_id: int, on: date) -> bool:
    event = ask.book.latest("cooling", on=on)["cooling"].get(animal_id)
    return event is not None and event.data["state"] == "begun"


def figures_of(ask: Ask, animal_id: int) -> SpeciesFigures | None:
    """What is shipped about the species of an animal."""
    return ask.figures(ask.book.animals[animal_id].species)


def _shared(ask: Ask, name: str, enclosure_id: int, animals: Sequence[int]) -> Span | None:
    low = _bound(ask, name, "least", enclosure_id, animals)
    high = _bound(ask, name, "most", enclosure_id, animals)
    return (low, high) if low is not None and high is not None and low <= high else None


def _bound(
    ask: Ask, name: str, end: str, enclosure_id: int, animals: Sequence[int]
) -> float | None:
    found = list(_bounds(ask, name, end, enclosure_id, animals))
    return (max if end == "least" else min)(found, default=None)


def _bounds(
    ask: Ask, name: str, end: str, enclosure_id: int, animals: Sequence[int]
) -> Iterator[float]:
    for animal in animals or (None,):
        own = float(ask.value("habitat", f"{name}_{end}", About(animal, enclosure_id)).value)
        figures = figures_of(ask, animal) if animal is not None else None
        if own:
            yield own
        elif figures and (span := _shipped(figures, name)):
            yield span[0] if end == "least" else span[1]


def _shipped(figures: SpeciesFigures, name: str) -> Span | None:
    if name == "uv":
        zone = figures.uv_zone
        return basking_span((zone.low, zone.high)) if zone else None
    spans = {"warm": figures.warm, "cool": figures.cool, "night": figures.night}
    span = spans.get(name, figures.humidity)
    return (span.low, span.high) if span else None
