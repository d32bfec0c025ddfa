"""Doubts about an event before it is written; each asks the keeper to confirm, none refuses."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from msgspec import Struct

from warmside.core.record.entities import NewEvent
from warmside.core.record.whereabouts import HERE_KINDS, Custody
from warmside.core.values.moments import PartialDate
from warmside.core.values.quantities import Display, format_quantity
from warmside.core.values.units import Unit

MASS_JUMP = 8.0  # a digit too many or too few, and some growth; common practice, no source

GONE = (Custody.DEPARTED, Custody.LENT_OUT)
COLDEST_C = 0.0
HOTTEST_C = {"warm_c": 63.0, "cool_c": 45.0}
"""Beyond basking surfaces of desert lizards, and beyond any cool side (common practice)."""


class Known(Struct, frozen=True):
    """What is known of an animal before the event."""

    name: str
    hatched: PartialDate | None
    custody: Custody
    last_mass_g: float | None


def later_today(event: NewEvent, now: datetime, today: date) -> bool:
    """Whether the event has a time of today that is still to come."""
    return event.at is not None and event.at > now and event.day == today


def doubts(
    kind: str,
    day: date,
    data: Mapping[str, Any],
    today: date,
    known: Known | None,
    display: Display,
    *,
    later_today: bool = False,
    absent: bool = False,
    dead: bool = False,
) -> list[str]:
    """What is implausible about the event, in the keeper's words.

    `absent` says that events of the kind may be of an animal that is lent out or has left, `dead`
    of one that has died.
    """
    found = [f"{day} is in the future"] if day > today else []
    if later_today:
        found.append("that time of today is still to come")
    if kind == "climate":
        found += _climate_doubts(data, display)
    if known is None:
        return found
    if known.hatched and day < known.hatched.earliest:
        found.append(f"{day} is before {known.name} hatched ({known.hatched.text})")
    if known.custody is Custody.DEAD and not dead:
        found.append(f"{known.name} is recorded as dead")
    elif known.custody in GONE and not absent and kind not in HERE_KINDS:
        found.append(f"{known.name} is recorded as {known.custody}")
    if kind == "weighed" and known.last_mass_g:
        found += _mass_doubts(data["mass_g"], known.last_mass_g, display)
    if kind == "fed" and known.last_mass_g and (data.get("mass_g") or 0) > known.last_mass_g:
        found.append(f"the meal is heavier than {known.name} was at the last weighing")
    return found


def _climate_doubts(data: Mapping[str, Any], display: Display) -> list[str]:
    """Temperatures that hardly any place has; of a number meant in the other scale, say so."""
    found = []
    for name, where in (("warm_c", "warm side"), ("cool_c", "cool side")):
        value = data.get(name)
        if value is None or COLDEST_C <= value <= HOTTEST_C[name]:
            continue
        told = format_quantity(value, Unit.TEMPERATURE, display)
        other = f" ({value:.0f} °F would be {(value - 32.0) / 1.8:.0f} °C)" if value > 70 else ""
        found.append(f"{told} on the {where}: check number, scale and thermometer{other}")
    warm, cool = data.get("warm_c"), data.get("cool_c")
    if warm is not None and cool is not None and cool > warm + 2.0:
        found.append("the cool side is warmer than the warm side")
    return found


def _mass_doubts(mass_g: float, last_g: float, display: Display) -> list[str]:
    ratio = mass_g / last_g
    if 1 / MASS_JUMP < ratio < MASS_JUMP:
        return []
    new, old = (format_quantity(m, Unit.MASS, display) for m in (mass_g, last_g))
    told = f"{_two_digits(ratio)} times" if ratio > 1 else f"only {_two_digits(100 * ratio)} % of"
    return [f"{new} is {told} the last weight ({old})"]


def _two_digits(number: float) -> str:
    return f"{float(f'{number:.2g}'):g}"
