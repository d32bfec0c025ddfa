"""A course as it was typed at once: the order, the bottle that came with it, a word on food."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from msgspec import Struct

from warmside.api import BadInput, Display, Unit, parse_quantity
from warmside.plugins.health.cases.food_words import food_data

Data = dict[str, Any]


class Typed(Struct, frozen=True):
    """What was typed of a course; empty or None is what was left out."""

    medicine: str
    dose: str = ""
    by: str = ""
    every: str = ""
    start: str | None = None
    clock: str | None = None
    until: str | None = None
    doses: int | None = None
    counted: str | None = None
    amount: str = ""
    way: str = ""
    food: str | None = None
    watch: str = ""
    mass: str | None = None
    window: str | None = None
    bottle: str = ""
    expires: str | None = None
    storage: str = ""
    batch: str = ""
    feeding: str = ""


def course_data(typed: Typed, day_of: Callable[[str], date], show: Display) -> Data:
    """The order as the data of its event; `day_of` reads a day as it was typed."""
    words = ("dose", "every", "clock", "doses", "counted", "amount", "way", "food", "watch", "by")
    window = typed.window
    return {
        "what": typed.medicine,
        **{name: getattr(typed, name) for name in words},
        "start": day_of(typed.start) if typed.start else None,
        "until": day_of(typed.until) if typed.until else None,
        "mass_g": _mass(typed.mass, show),
        "window_hours": parse_quantity(window, Unit.HOURS, what="--window") if window else None,
    }


def _mass(text: str | None, show: Display) -> float | None:
    return parse_quantity(text, Unit.MASS, display=show, what="--mass") if text else None


def bottle_data(typed: Typed, day_of: Callable[[str], date]) -> Data | None:
    """The bottle as the data of its event; None where none came, BadInput where half is said."""
    if not typed.bottle:
        if typed.expires or typed.storage or typed.batch:
            raise BadInput("say what the bottle holds, too: --bottle 5ml")
        return None
    expires = day_of(typed.expires) if typed.expires else None
    held = {"of": typed.medicine, "holds": typed.bottle, "expires": expires}
    return {**held, "storage": typed.storage, "batch": typed.batch}


def feeding_data(typed: Typed) -> Data | None:
    """The vet's word on food as the data of its event; None where nothing was said."""
    return dict(food_data(typed.feeding, typed.by, None)) if typed.feeding else None
