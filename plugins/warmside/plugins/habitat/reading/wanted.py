"""The spans that an enclosure should keep: the keeper's own, else those of who lives there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from warmside.api import About, Ask, SpeciesFigures, Valued
from warmside.plugins.habitat.described.enclosure import Zone
from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.targets import Span, Wanted, ZoneWanted, side
from warmside.plugins.habitat.light.uv import basking_span
from warmside.plugins.habitat.reading.describing import described

SPECIES = "figures of the species"
WARM_UP_DAYS = 10
"""So long an enclosure may take until it is warm after winter cooling (common practice)."""


class Said(NamedTuple):
    """A span and who says so; none where nothing is known."""

    span: Span | None = None
    by: str = ""


class Here(NamedTuple):
    """An enclosure with those who live in it: whose values count there."""

    ask: Ask
    enclosure_id: int
    animals: tuple[int, ...]

    def span(self, name: str, described: Span | None) -> Said:
        """What all can share of a span; `described` is that of the zone."""
        ends = described or (None, None)
        low, high = (
            self._end(name, end, one) for end, one in zip(("least", "most"), ends, strict=True)
        )
        if low is None or high is None or low[0] > high[0]:
            return Said()
        return Said((low[0], high[0]), low[1] if low[1] == high[1] else f"{low[1]}, {high[1]}")

    def night(self) -> float | None:
        """The least of a night that none of them is below."""
        found = self._end("night", "least", None)
        return found[0] if found else None

    def _end(self, name: str, end: str, described: float | None) -> tuple[float, str] | None:
        found = [b for a in self.animals or (None,) if (b := self._of(a, name, end, described))]
        return (max if end == "least" else min)(found, default=None)

    def _of(
        self, animal: int | None, name: str, end: str, described: float | None
    ) -> tuple[float, str] | None:
        """The end of a span for one of them, with who says so."""
        own = self._set(animal, name, end)
        if own and own.scope == "animal" and animal is not None:
            return float(own.value), f"set for {self.ask.book.animals[animal].code}"
        if described is not None:
            return described, "as described"
        if own:
            return float(own.value), f"set for the {own.scope}"
        figures = figures_of(self.ask, animal) if animal is not None else None
        span = _shipped(figures, name) if figures else None
        if span is None:
            return None
        return span[0] if end == "least" else span[1], SPECIES

    def _set(self, animal: int | None, name: str, end: str) -> Valued | None:
        """What the keeper has set, where there is such a setting; 0 leaves it to the species."""
        if name == "between":
            return None
        found = self.ask.value("habitat", f"{name}_{end}", About(animal, self.enclosure_id))
        return found if float(found.value) else None


def inside(ask: Ask, enclosure_id: int, on: date) -> tuple[int, ...]:
    """The animals that live in an enclosure on a day."""
    return ask.book.occupants(on).get(enclosure_id, ())


def wanted(ask: Ask, enclosure_id: int, on: date) -> Wanted:
    """What all that live there can share: the part that is in the spans of each of them.

    The narrowest says: the keeper's value for the animal, then the zone as it is described, then
    the values for the enclosure and the species, then what is shipped of the species.
    """
    key = ("habitat", "wanted", enclosure_id, on)
    return ask.book.once(key, lambda: _wanted(ask, enclosure_id, on))


def _wanted(ask: Ask, enclosure_id: int, on: date) -> Wanted:
    found = described(ask.book, enclosure_id, on)
    zones = found.zones if found else ()
    here = Here(ask, enclosure_id, inside(ask, enclosure_id, on))
    ends = {"warm": zones[0].air, "cool": zones[-1].air} if len(zones) > 1 else {}
    spans = {name: here.span(name, ends.get(name)) for name in ("warm", "cool", "humidity", "uv")}
    return Wanted(
        spans["warm"].span,
        spans["cool"].span,
        here.night(),
        spans["humidity"].span,
        spans["uv"].span,
        tuple(_zone(here, zones, zone) for zone in zones),
        {name: one.by for name, one in spans.items()},
        SPECIES in spans["warm"].by and any(_basks(ask, a) for a in here.animals),
    )


def _zone(here: Here, zones: Sequence[Zone], zone: Zone) -> ZoneWanted:
    where = side(zone.name)
    if len(zones) > 1:
        where = {0: "warm", len(zones) - 1: "cool"}.get(zone.rank, "between")
    air = here.span(where, zone.air) if zone.air else Said()
    damp = here.span("humidity", zone.humidity) if zone.humidity else Said()
    return ZoneWanted(zone.name, where, air.span, damp.span, air.by or damp.by)


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
    warm = {a: x for a, x in found.items() if not is_cooled(ask, a, on)}
    return Limits(
        min((x.hot_act for x in found.values()), default=None),
        max((x.cold_act for x in warm.values()), default=None),
        wanted,
        len(warm) == len(animals) > 0 and not _warms_up(ask, animals, on),
        _is_heated(ask, enclosure_id, on),
    )


def _is_heated(ask: Ask, enclosure_id: int, on: date) -> bool:
    """Whether it may have a heat source that fails: as described, else nobody knows."""
    found = described(ask.book, enclosure_id, on)
    return found is None or any(heat.kind != "room" for heat in found.heats)


def is_cooled(ask: Ask, animal_id: int, on: date) -> bool:
    """Whether an animal is in winter cooling on a day."""
    event = ask.book.latest("cooling", on=on)["cooling"].get(animal_id)
    return event is not None and event.data["state"] == "begun"


def cooled_until(ask: Ask, animals: Sequence[int], on: date) -> date | None:
    """The last day on which one of them was in winter cooling that is over; None for none."""
    newest = ask.book.latest("cooling", on=on)["cooling"]
    ended = [newest[a].day for a in animals if a in newest and newest[a].data["state"] == "ended"]
    return max(ended, default=None)


def _warms_up(ask: Ask, animals: Sequence[int], on: date) -> bool:
    """Whether one of them came out of winter cooling of late: it is made warm step by step."""
    ended = cooled_until(ask, animals, on)
    return ended is not None and (on - ended).days <= WARM_UP_DAYS


def figures_of(ask: Ask, animal_id: int) -> SpeciesFigures | None:
    """What is shipped about the species of an animal."""
    return ask.figures(ask.book.animals[animal_id].species)


def _basks(ask: Ask, animal_id: int) -> bool:
    """Whether the warm span of its species is that of a surface on which it basks."""
    figures = figures_of(ask, animal_id)
    return figures is not None and figures.basks


def _shipped(figures: SpeciesFigures, name: str) -> Span | None:
    if name == "uv":
        zone = figures.uv_zone
        return basking_span((zone.low, zone.high)) if zone else None
    spans = {"warm": figures.warm, "cool": figures.cool, "night": figures.night}
    span = spans.get(name, figures.humidity)
    return (span.low, span.high) if span else None
