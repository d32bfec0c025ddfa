"""What is typed of one part of a set-up, as the keys and values of its table in the description."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from warmside.api import BadInput, Unit, parse_quantity
from warmside.plugins.habitat.described.enclosure import FACES, FITTINGS, HEATS

PLACE = ("left", "front", "bottom", "width", "depth", "height")
KEYS = {
    "": (
        *("width", "depth", "height", "wall", "wall_thickness"),
        *("air_changes", "light_sensitive", "why"),
    ),
    "zone": ("name", "left", "width", "air", "humidity"),
    "fitting": ("kind", "name", "zone", *PLACE, "why"),
    "heat": ("kind", "zone", "watts", *PLACE, "guard", "thermostat", "reach", "probe", "why"),
    "light": ("kind", "hours", "leave", "uv_index", "since", "why"),
    "vent": ("wall", "area", "why"),
}
"""The keys of each table, as they are typed; the empty name is the box itself."""
KINDS = (*FITTINGS, *HEATS, "light", "vent", "zone")
REASONS = {
    "hide": "to be there without being seen",
    "humid hide": "damp moss for the days before a shed",
    "raised hide": "cover above the floor",
    "ledge": "to lie nearer to the warmth",
    "shelf": "to lie above the floor, and to hide below",
    "branch": "to climb and to rub off old skin",
    "cork": "to climb and to hide behind",
    "plants": "cover, and moister air",
    "water bowl": "fresh water, away from heat and mains",
    "rock": "holds the warmth; wears down claws",
    "substrate": "to dig in; holds moisture",
    "panel": "warms from above, the whole animal fits below it",
    "lamp": "a warm place by day",
    "mat": "warms a part of the floor",
    "cable": "warms a part of the wall",
    "room": "the room itself is held warm",
    "light": "tells day from night",
    "vent": "lets stale air out",
}
"""Reasons of our own to choose from; each is to be made the keeper's."""


def table_of(kind: str) -> str:
    """The table in which a kind of thing stands."""
    if kind in FITTINGS:
        return "fitting"
    return "heat" if kind in HEATS else kind


def kind_called(text: str) -> str:
    """A kind as it is typed, with blanks or dashes. Raises BadInput."""
    found = text.strip().casefold().replace("-", " ")
    if found not in KINDS:
        raise BadInput(f"{text!r} is none of: {', '.join(KINDS)}")
    return found


def values_of(table: str, typed: Mapping[str, str]) -> dict[str, Any]:
    """Options as values of a table; BadInput for one that such a thing does not have."""
    for key in typed:
        if key not in KEYS[table]:
            option = "--" + key.replace("_", "-")
            what = {"": "the box"}.get(table, f"a {table}")
            raise BadInput(f"{what} has no {option}")
    return {k: _VALUES.get(k, _text)(k, typed[k]) for k in KEYS[table] if k in typed}


def said_yes(key: str, text: str) -> bool:
    """A yes or no. Raises BadInput."""
    found = {"yes": True, "y": True, "no": False, "n": False}.get(text.strip().casefold())
    if found is None:
        raise BadInput(f"--{key.replace('_', '-')} is yes or no, not {text!r}")
    return found


def length(key: str, text: str) -> str:
    """A length, kept as it was typed. Raises BadInput."""
    parse_quantity(text, Unit.LENGTH, what=f"--{key.replace('_', '-')}")
    return text.strip()


def span(key: str, text: str) -> list[str]:
    """A lower and an upper value, typed as `30C-32C`. Raises BadInput."""
    ends = [end.strip() for end in re.split(r"\s*(?:–|\bto\b|(?<=[\w%])-)\s*", text)]
    if len(ends) != 2 or not all(ends):
        raise BadInput(f"--{key} is two values, the lower and the upper: 30C-32C")
    return ends


def face(key: str, text: str) -> str:
    """One of the walls. Raises BadInput."""
    if text not in FACES:
        raise BadInput(f"--{key} is one of {', '.join(FACES)}, not {text!r}")
    return text


def _text(key: str, text: str) -> str:
    return text.strip()


def _number(key: str, text: str) -> float | int:
    """A number whose unit the key says; its name may stand behind it."""
    bare = re.sub(r"(?i)\s*(w|watts?|h|hours?)$", "", text.strip())
    try:
        found = float(bare.replace(",", "."))
    except ValueError:
        raise BadInput(f"--{key.replace('_', '-')} is a number, not {text!r}") from None
    return int(found) if found.is_integer() else found


def _changes(key: str, text: str) -> list[float]:
    low, high = span("air-changes", text)
    return [float(_number(key, low)), float(_number(key, high))]


def _day(key: str, text: str) -> date:
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise BadInput(f"--{key} is a day such as 2026-03-01, not {text!r}") from None


_VALUES: dict[str, Callable[[str, str], Any]] = {
    **dict.fromkeys((*PLACE, "wall_thickness"), length),
    **dict.fromkeys(("guard", "thermostat", "reach", "leave", "light_sensitive"), said_yes),
    **dict.fromkeys(("watts", "hours", "uv_index"), _number),
    **dict.fromkeys(("air", "humidity"), span),
    "air_changes": _changes,
    "since": _day,
}
