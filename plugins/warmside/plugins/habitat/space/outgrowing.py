"""When an animal will have outgrown an enclosure under a rule, as a range of days."""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.plugins.habitat.space.growing import Body
from warmside.plugins.habitat.space.rules import Box, Rule, held

LONGEST_MM = 12_000.0


class Outgrown(Struct, frozen=True):
    """From which day on, from today; None is never, as far as is known.

    `earliest` if it goes on growing as fast as now and gets as long as they get, `latest` if growth
    slows down towards the shortest of the grown.
    """

    earliest: float | None
    latest: float | None


def outgrown(body: Body, longest_mm: float) -> Outgrown | None:
    """When its length goes beyond what a rule allows; None where its growth is not known."""
    if body.length.low > longest_mm:
        return Outgrown(0.0, 0.0)
    if body.per_day is None:
        return Outgrown(0.0, None) if body.length.high > longest_mm else None
    return Outgrown(_earliest(body, longest_mm), _latest(body, longest_mm))


def _earliest(body: Body, longest_mm: float) -> float | None:
    """At its fastest, in a straight line."""
    assert body.per_day is not None
    if body.length.high > longest_mm:
        return 0.0
    ends = body.grown is not None and body.grown.high <= longest_mm
    if ends or body.per_day.high <= 0:
        return None
    return (longest_mm - body.length.high) / body.per_day.high


def _latest(body: Body, longest_mm: float) -> float | None:
    """At its slowest: each day grows it by the same share of what it lacks to its grown length."""
    assert body.per_day is not None
    if body.grown is None or body.grown.low <= longest_mm or body.per_day.low <= 0:
        return None
    lacks = body.grown.low - body.length.low
    share = body.per_day.low / lacks
    return math.log(lacks / (body.grown.low - longest_mm)) / share


def longest_met(rule: Rule, given: Box, share: float, animals: int) -> float | None:
    """The greatest total length in mm for which an enclosure meets a rule; None where none is.

    `share` is the length that the rule speaks of over the total length. A rule that says nothing of
    a length counts as met there.
    """
    if not _met(rule, given, 1.0, share, animals):
        return None
    low, high = 1.0, LONGEST_MM
    if _met(rule, given, high, share, animals):
        return high
    while high - low > 0.5:
        middle = (low + high) / 2
        low, high = (middle, high) if _met(rule, given, middle, share, animals) else (low, middle)
    return low


def _met(rule: Rule, given: Box, total_mm: float, share: float, animals: int) -> bool:
    found = held(rule, given, share * total_mm, animals)
    return found is None or found.ok
