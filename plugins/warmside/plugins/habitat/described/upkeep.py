"""What a described enclosure needs again and again: water, new substrate, a new lamp, mist."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.habitat.described.enclosure import Enclosure

OPAQUE_DAYS = 14
"""An animal that was noted as opaque counts as such for so long without a shed (common practice:
skin and eyes clear within two weeks)."""


class Every(Struct, frozen=True):
    """After how many days each is due again; 0 asks for none."""

    water: float
    substrate: float
    lamp: float
    mist: float


class Known(Struct, frozen=True):
    """What is on record of an enclosure: when each was last done, since when who is opaque."""

    since: date
    watered: date | None = None
    cleaned: date | None = None
    misted: date | None = None
    opaque: tuple[tuple[int, date], ...] = ()


class Due(Struct, frozen=True):
    """Something due: `what` is water, substrate, lamp or mist; `last` when it was last done.

    `mark` is that of the light, `animal` who is opaque.
    """

    what: str
    day: date
    every_days: int
    last: date | None
    mark: str = ""
    animal: int | None = None


def due(found: Enclosure, known: Known, every: Every, on: date) -> Iterator[Due]:
    """What is due up to a day; nothing that is not described is asked for."""
    kinds = {f.kind for f in found.fittings}
    if "water bowl" in kinds:
        yield from _again("water", known.watered, known.since, every.water, on)
    if "substrate" in kinds:
        yield from _again("substrate", known.cleaned, known.since, every.substrate, on)
    for n, light in enumerate(found.lights, 1):
        if light.since is not None:
            yield from _again("lamp", light.since, light.since, every.lamp, on, f"L{n}")
    for animal, seen in known.opaque[:1]:
        last = known.misted if known.misted and known.misted >= seen else None
        for one in _again("mist", last, seen - _days(every.mist), every.mist, on):
            yield Due(one.what, one.day, one.every_days, last, animal=animal)


def _again(
    what: str, last: date | None, since: date, every: float, on: date, mark: str = ""
) -> Iterator[Due]:
    day = (last or since) + _days(every)
    if every and day <= on:
        yield Due(what, day, max(1, round(every)), last, mark)


def _days(every: float) -> timedelta:
    return timedelta(days=round(every))
