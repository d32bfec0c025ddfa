"""The marks by which the parts of a description are called: 1, H1, L1, V1, a zone by its name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from warmside.api import NotFound, near_miss
from warmside.plugins.habitat.described.enclosure import Enclosure

BOX = "box"
LETTERS = {"fitting": "", "heat": "H", "light": "L", "vent": "V"}


class Part(NamedTuple):
    """A part of a description: its mark, the table that it stands in (none for the whole), which
    one of that table from 0, and what it is called."""

    mark: str
    table: str
    number: int
    words: str


def parts(found: Enclosure) -> Iterator[Part]:
    """All parts: the box itself, zones by name, then what is in it by number."""
    yield Part(BOX, "", 0, "the box")
    for n, zone in enumerate(found.zones):
        yield Part(zone.name, "zone", n, f"the zone {zone.name}")
    things = {
        "fitting": [f.name for f in found.fittings],
        "heat": [h.kind for h in found.heats],
        "light": [x.kind for x in found.lights],
        "vent": [f"vent in the {v.wall}" for v in found.vents],
    }
    for table, names in things.items():
        for n, name in enumerate(names):
            yield Part(f"{LETTERS[table]}{n + 1}", table, n, name)


def part_called(found: Enclosure, mark: str) -> Part:
    """The part of that mark, or of that name where only one has it. Raises NotFound."""
    known = list(parts(found))
    wanted = mark.strip().casefold()
    for same in ([p for p in known if p.mark.casefold() == wanted], _named(known, wanted)):
        if len(same) == 1:
            return same[0]
    near = near_miss(mark, [p.mark for p in known])
    marks = ", ".join(p.mark for p in known)
    raise NotFound(f"nothing in it is marked {mark!r}{near}; there are: {marks}")


def _named(known: list[Part], wanted: str) -> list[Part]:
    return [p for p in known if p.words.casefold() == wanted]
