"""The lines that join parents and young in a drawn pedigree.

Parents side by side are joined by a line between their symbols; others by a line below them. From
its middle a line goes down to the line of the young. Lines of families in one gap between rows lie
at heights of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from warmside.plugins.lineage.pedigree.layout import Place
from warmside.plugins.lineage.pedigree.people import Family, Id

Point = tuple[float, float]


class Measures(NamedTuple):
    """Sizes in millimetres: of a cell, of a symbol's half width, of a row with its words."""

    cell: float
    radius: float
    row: float
    words: float


class Joined(NamedTuple):
    """A line of a family; `double` is for related parents, `dashed` for an unsure one."""

    points: tuple[Point, ...]
    double: bool = False
    dashed: bool = False


def centre(place: Place, m: Measures) -> Point:
    """The middle of a symbol."""
    return (m.cell * (place[0] + 0.5), m.row * place[1] + m.radius + 1)


def lines(families: Sequence[Family], places: Mapping[Id, Place], m: Measures) -> Iterator[Joined]:
    """The lines of all families that have a parent in the drawing."""
    levels = _levels(families, places)
    for number, family in enumerate(families):
        if family.parents:
            yield from _family(family, places, m, levels[number])


def _levels(families: Sequence[Family], places: Mapping[Id, Place]) -> dict[int, float]:
    """The height of each family's lines in its gap, between 0 and 1, from its left end."""
    by_row: dict[int, list[int]] = {}
    for number, family in enumerate(families):
        if family.parents:
            by_row.setdefault(_gap(family, places), []).append(number)
    found: dict[int, float] = {}
    for numbers in by_row.values():
        numbers.sort(key=lambda n: _left(families[n], places))
        found |= {n: (at + 1) / (len(numbers) + 1) for at, n in enumerate(numbers)}
    return found


def _gap(family: Family, places: Mapping[Id, Place]) -> int:
    return max(places[p][1] for p in family.parents)


def _left(family: Family, places: Mapping[Id, Place]) -> float:
    return min(places[id][0] for id in (*family.parents, *family.young))


def _family(
    family: Family, places: Mapping[Id, Place], m: Measures, level: float
) -> Iterator[Joined]:
    ends = [centre(places[p], m) for p in family.parents]
    gap = _gap(family, places)
    top = m.row * gap + 2 * m.radius + 1 + m.words
    height = top + (m.row - 2 * m.radius - m.words) * level
    unsure = any(p in family.unsure for p in family.parents)
    if _beside(family, places):
        (x1, y), (x2, _) = sorted(ends)
        yield Joined(((x1 + m.radius, y), (x2 - m.radius, y)), family.related, unsure)
        start: Point = (x2 - m.radius - 2.5, y)  # beside the words of the left one
    else:
        across: list[float] = []
        for (x, y), parent in zip(ends, family.parents, strict=True):
            down = _around(places, parent, gap, m)
            below = (
                (x, y + m.radius),
                *((x + d, y + m.radius + 2) for d in down),
            )
            yield Joined((*below, (x + down[-1], height)), dashed=parent in family.unsure)
            across.append(x + down[-1])
        if len(ends) == 2:
            yield Joined(((min(across), height), (max(across), height)), family.related)
        start = (sum(across) / len(across), height)
    yield from _young([centre(places[y], m) for y in family.young], start, height, m)


def _around(places: Mapping[Id, Place], parent: Id, gap: int, m: Measures) -> tuple[float, ...]:
    """How far aside a line down to a lower row goes, so that it passes nobody's symbol."""
    x, row = places[parent]
    in_the_way = any(row < other <= gap and abs(x - at) < 0.4 for at, other in places.values())
    return (0.0, -0.42 * m.cell) if in_the_way else (0.0,)


def _beside(family: Family, places: Mapping[Id, Place]) -> bool:
    """Two parents in one row with nobody in between."""
    if len(family.parents) != 2:
        return False
    (x1, row1), (x2, row2) = (places[p] for p in family.parents)
    low, high = sorted((x1, x2))
    between = any(row == row1 and low < x < high for x, row in places.values())
    return row1 == row2 and not between


def _young(young: Sequence[Point], start: Point, height: float, m: Measures) -> Iterator[Joined]:
    """Down from the parents to one line above all young, and from it to each."""
    across = [x for x, _ in young] + [start[0]]
    yield Joined((start, (start[0], height)))
    if min(across) < max(across):
        yield Joined(((min(across), height), (max(across), height)))
    for x, y in young:
        yield Joined(((x, height), (x, y - m.radius)))
