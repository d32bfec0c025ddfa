"""A young one as a keeper types it: `54g female visual albino`, each part where it is known."""

from __future__ import annotations

import re

from msgspec import Struct

from warmside.api import BadInput, Display, Unit, parse_quantity, quoted

_MASS = re.compile(r"(\d+(?:[.,]\d+)?\s*(?:kg|mg|g|oz|lb)?)(?=[\s,]|$)(?!\s*%)", re.IGNORECASE)
_SEXES = {"female": "female", "f": "female", "male": "male", "m": "male", "unknown": "unknown"}
MOST_G = 5_000.0
"""More than any reptile that is kept weighs at hatching (from memory)."""


class Young(Struct, frozen=True):
    """One young; None and empty are what is not known. `mass_g` in grams."""

    mass_g: float | None = None
    sex: str = "unknown"
    looks: str = ""
    name: str = ""
    code: str = ""


def read_young(text: str, display: Display) -> Young:
    """What was typed of a young one: a name before a colon, mass, sex, then the looks."""
    name, colon, rest = text.partition(":")
    words = (rest if colon else name).strip(" ,")
    mass, words = _mass(words, display)
    first, _, after = words.partition(" ")
    sex = _SEXES.get(first.strip(",").casefold())
    looks = after if sex else words
    return Young(mass, sex or "unknown", looks.strip(" ,"), name.strip() if colon else "")


def _mass(words: str, display: Display) -> tuple[float | None, str]:
    """The mass at the beginning, and what follows it."""
    found = _MASS.match(words)
    if found is None:
        return None, words
    mass = checked_mass(found[1], display)
    return mass, words[found.end() :].strip(" ,")


def checked_mass(text: str, display: Display) -> float:
    """A mass in grams; BadInput where no young one weighs that."""
    mass = parse_quantity(text, Unit.MASS, display=display, what="the mass of a young")
    if not 0 < mass <= MOST_G:
        raise BadInput(f"{quoted(text)} is no mass of a hatchling; check the number and its unit")
    return mass
