"""Finding an animal, an enclosure or a clutch by its code or name."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from warmside.core.record.entities import Animal, Clutch, Enclosure
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss

Named = TypeVar("Named", Animal, Enclosure, Clutch)


def named(wanted: str, known: Iterable[Named], what: str) -> Named:
    """The thing of that code, or of that name where only one has it; near misses are suggested."""
    things = list(known)
    folded = wanted.strip().casefold()
    for thing in things:
        if thing.code.casefold() == folded:
            return thing
    same = [t for t in things if t.name.casefold() == folded]
    if len(same) == 1:
        return same[0]
    if same:
        codes = ", ".join(t.code for t in same)
        raise NotFound(f"{len(same)} {what}s are called {wanted!r}; use a code: {codes}")
    hint = near_miss(wanted, [w for t in things for w in (t.code, t.name)])
    raise NotFound(f"there is no {what} {wanted!r}{hint}; list them with: warmside {what} list")
