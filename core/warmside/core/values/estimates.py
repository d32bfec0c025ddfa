"""What an answer may be where no single number is known: a range of days, a distribution."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from warmside.core.values.basis import Basis
from warmside.core.values.units import Unit


@dataclass(frozen=True, slots=True)
class DayRange:
    """A day between two others, both included; `likely` is None where none stands out."""

    earliest: date
    latest: date
    basis: Basis
    likely: date | None = None


@dataclass(frozen=True, slots=True)
class Distribution:
    """Values with their probabilities, which sum to 1."""

    chances: tuple[tuple[float, float], ...]
    unit: Unit
    basis: Basis


@dataclass(frozen=True, slots=True)
class Valued:
    """A value that holds for a subject, why, and for whom it was set: the narrowest wins.

    `scope` is `animal`, `enclosure`, `species`, `collection` or `default`.
    """

    value: Any
    basis: Basis
    scope: str
