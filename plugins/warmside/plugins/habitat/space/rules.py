"""What a published rule asks of an enclosure, and whether one meets it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from msgspec import Struct

from warmside.api import Source


class Box(NamedTuple):
    """Inner sizes in mm: the longer side of the floor, the shorter, the height."""

    width: float
    depth: float
    height: float

    @property
    def floor_m2(self) -> float:
        """The floor in m2."""
        return self.width * self.depth / 1e6


class Row(NamedTuple):
    """What a rule asks for animals up to a length in m; None where it says nothing."""

    up_to_m: float
    floor_m2: float
    height_m: float | None
    each_more_m2: float
    second_percent: float = 0.0
    each_more_percent: float = 0.0
    shortest_side: float | None = None


class Rule(Struct, frozen=True):
    """A rule: for whom, by which length, and either rows of sizes or multiples of the length.

    What it asks is for so many animals; for more the floor grows.
    """

    name: str
    source: Source
    by_vent: bool
    rows: tuple[Row, ...] = ()
    factors: tuple[float, float, float] | None = None
    for_animals: int = 1
    each_more_percent: float = 0.0


class Needed(NamedTuple):
    """What a rule asks, in mm and m2; None where it says nothing."""

    floor_m2: float | None
    width: float | None
    depth: float | None
    height: float | None


class Held(NamedTuple):
    """A rule held against an enclosure; `margin` is the least share of what is given over what is
    asked, less 1: -0.2 is a fifth too small."""

    rule: Rule
    needed: Needed
    ok: bool
    margin: float


def needed(rule: Rule, length_mm: float, animals: int) -> Needed | None:
    """What the rule asks for animals of a length; None where it has no row for it."""
    more = max(0, animals - rule.for_animals)
    if rule.factors is not None:
        long, wide, high = (f * length_mm for f in rule.factors)
        grown = 1 + more * rule.each_more_percent / 100
        return Needed(long * wide / 1e6 * grown, long, wide, high)
    row = next((r for r in rule.rows if length_mm / 1000 <= r.up_to_m), None)
    if row is None:
        return None
    floor = row.floor_m2 * (1 + _percent(row, more) / 100) + more * row.each_more_m2
    height = None if row.height_m is None else row.height_m * 1000
    side = None if row.shortest_side is None else row.shortest_side * length_mm
    return Needed(floor, side, side, height)


def _percent(row: Row, more: int) -> float:
    """How much larger the floor is for animals beyond those that the rule is made for."""
    return (row.second_percent if more else 0.0) + max(0, more - 1) * row.each_more_percent


def held(rule: Rule, given: Box, length_mm: float, animals: int) -> Held | None:
    """The rule against an enclosure; None where it says nothing of that length."""
    asked = needed(rule, length_mm, animals)
    if asked is None:
        return None
    margin = min(_margins(asked, given)) - 1
    return Held(rule, asked, margin > -1e-6, margin)


def _margins(asked: Needed, given: Box) -> Iterator[float]:
    long, short = sorted((given.width, given.depth), reverse=True)
    pairs = (
        (given.floor_m2, asked.floor_m2),
        (long, asked.width),
        (short, asked.depth),
        (given.height, asked.height),
    )
    return (have / want for have, want in pairs if want)


def stretches_out(given: Box, length_mm: float) -> bool:
    """Whether an animal can lie straight along the floor, from corner to corner at most."""
    return math.hypot(given.width, given.depth) >= length_mm


def all_held(
    rules: Sequence[Rule], given: Box, total_mm: float | None, vent_mm: float | None, animals: int
) -> list[Held]:
    """All rules of which the length is known, in their order."""
    found = []
    for rule in rules:
        length = vent_mm if rule.by_vent else total_mm
        if length is not None and (one := held(rule, given, length, animals)) is not None:
            found.append(one)
    return found
