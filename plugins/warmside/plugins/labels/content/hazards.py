"""The dangers that hazard signs have words for, each with its source."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from msgspec import Struct

from warmside.api import BadInput, Source, near_miss, quoted, sourced_rows


class Hazard(Struct, frozen=True):
    """A kind of danger: the large words, what to do first, and where these come from."""

    name: str
    sign: str
    first: tuple[str, ...]
    source: Source


@cache
def hazards() -> tuple[Hazard, ...]:
    """The kinds of danger that have words of their own, the gravest first."""
    return tuple(
        Hazard(row["name"], row["sign"], tuple(row["first"]), row.source)
        for row in sourced_rows("warmside.plugins.labels", "signs", "hazard")
    )


def find_hazard(name: str) -> Hazard:
    """The hazard of a name; BadInput with a near miss when there is none."""
    known = {hazard.name: hazard for hazard in hazards()}
    if name not in known:
        near = near_miss(name, known)
        raise BadInput(f"no hazard {quoted(name)!r}{near}; known are {', '.join(known)}")
    return known[name]


def gravest(noted: Sequence[str]) -> str:
    """Of several dangers behind one door the one that the shipped table names first."""
    known = [hazard.name for hazard in hazards()]
    return min(noted, key=lambda name: known.index(name) if name in known else -1)
