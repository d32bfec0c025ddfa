"""What an answer may be where no single number is known: a range of days, a distribution."""

from __future__ import annotations

from datetime import date
from typing import Any

from msgspec import Struct

from warmside.core.values.basis import Basis
from warmside.core.values.units import Unit


class DayRange(Struct, frozen=True):
    """A day between two others, both included; `likely` is None where none stands out."""

    earliest: date
    latest: date
    basis: Basis
    likely: date | None = None


class Distribution(Struct, frozen=True):
    """Values with their probabilities, which sum to 1."""

    chances: tuple[tuple[float, float], ...]
    unit: Unit
    basis: Basis


class Valued(Struct, frozen=True):
    """A value that holds for a subject, why, and for whom it was set: the narrowest wins.

    `scope` is `animal`, `enclosure`, `species`, `collection` or `default`.
    """

    value: Any
    basis: Basis
    scope: str
