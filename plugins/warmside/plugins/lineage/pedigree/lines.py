"""The lines that join parents and young in a drawn pedigree.

Parents side by side are joined by a line between their symbols; from others a line goes down
beside their words to a line that joins them. From its middle a line goes down to the line of the
young. Lines of families in one gap between rows lie at heights of their own where they would meet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from warmside.plugins.lineage.pedigree.layout import Place
from warmside.plugins.lineage.pedigree.levels import levels
from warmside.plugins.lineage.pedigree.people import Family, Id

Point = tuple[float, float]
SIDE = 0.5
"""So many cells beside a symbol its words end."""
FREE, FINE, TRIES = 0.46, 0.04, 100
"""How far from any symbol a line passes, in which steps such a place is looked for, how often."""


class Measures(NamedTuple):
    """Sizes in millimetres: of a cell, of a symbol's half width, of a row, of the words below."""

    cell: float
    radius: float
    row: float
    words: float


class Joined(NamedTuple):
    """A line of a family; `double` is for related parents, `dashed` for an unsure one.

    `share` is how likely the unsure parent is, where that is known.
    """

    points: tuple[Point, ...]
    double: bool = False
    dashed: bool = False
    share: float | None = None


class Run(NamedTuple):
    """Where a family's lines go, in cells from the left.

    `ways` is where the line of each parent goes down, none for two side by side.
    """

    ways: tuple[float, ...]
    start: float
    young: tuple[float, ...]

    @property
    def spans(self) -> tuple[tuple[float, float], ...]:
        """The horizontal lines, the upper one first: of the parents, and of the young."""
        sibs = (min(self.start, *self.young), max(self.start, *self.young))
        return ((min(self.ways), max(self.ways)), sibs) if len(self.ways) == 2 else (sibs,)


def centre(place: Place, m: Measures) -> Point:
    """The middle of a symbol."""
    return (m.cell * (place[0] + 0.5), m.row * place[1] + m.radius + 1)


def levels_of(families: Sequence[Family], places: Mapping[Id, Place]) -> dict[int, tuple[int, ...]]:
    """The heights of the lines of each family in its gap, counted from above."""
    gaps: dict[int, dict[int, tuple[tuple[float, float], ...]]] = {}
    for number, family in enumerate(families):
        if family.parents:
            spans = _run(number, family, places).spans
            gaps.setdefault(_gap(family, places), {})[number] = spans
    return {number: found for gap in gaps.values() for number, found in levels(gap).items()}


def lines(families: Sequence[Family], places: Mapping[Id, Place], m: Measures) -> Iterator[Joined]:
    """The lines of all families that have a parent in the drawing."""
    at = levels_of(families, places)
    most = 1 + max((max(found) for found in at.values()), default=0)
    for number, family in enumerate(families):
        if family.parents:
            top = m.row * _gap(family, places) + 2 * m.radius + 1 + m.words
            step = (m.row - 2 * m.radius - m.words - 1) / (most + 1)
            heights = [top + step * (level + 1) for level in at[number]]
            yield from _family(family, _run(number, family, places), heights, places, m)


def _gap(family: Family, places: Mapping[Id, Place]) -> int:
    return max(places[p][1] for p in family.parents)


def _run(number: int, family: Family, places: Mapping[Id, Place]) -> Run:
    """Where the lines of a family go; those of its neighbours lie a little aside."""
    young = tuple(places[y][0] for y in family.young)
    if _beside(family, places):
        return Run((), sum(places[p][0] for p in family.parents) / 2, young)
    aside = (number * 3 % 5 - 2) * 0.03
    towards = [places[p][0] for p in reversed(family.parents)]
    if len(towards) == 1:
        towards = [sum(young) / len(young)]
    gap = _gap(family, places)
    ways = tuple(
        _way_down(places, p, to, gap) + aside for p, to in zip(family.parents, towards, strict=True)
    )
    return Run(ways, sum(ways) / len(ways), young)


def _way_down(places: Mapping[Id, Place], parent: Id, towards: float, gap: int) -> float:
    """Where a line from a parent goes down past nobody's symbol and words, the nearest place."""
    x, row = places[parent]
    taken = [at for at, other in places.values() if row <= other <= gap]
    side = 1 if towards >= x else -1
    tries = [x + side * turn * (SIDE + FINE * n) for n in range(TRIES) for turn in (1, -1)]
    room = {t: min(abs(t - at) for at in taken) for t in tries if t > -SIDE}
    return next((t for t in room if room[t] > FREE), max(room, key=lambda t: room[t]))


def _beside(family: Family, places: Mapping[Id, Place]) -> bool:
    """Two parents in one row with nobody in between."""
    if len(family.parents) != 2:
        return False
    (x1, row1), (x2, row2) = (places[p] for p in family.parents)
    low, high = sorted((x1, x2))
    between = any(row == row1 and low < x < high for x, row in places.values())
    return row1 == row2 and not between


def _family(
    family: Family,
    run: Run,
    heights: Sequence[float],
    places: Mapping[Id, Place],
    m: Measures,
) -> Iterator[Joined]:
    shares = [family.unsure.get(p) for p in family.parents if p in family.unsure]
    start: Point = (m.cell * (run.start + 0.5), heights[0])
    if not run.ways:
        (x1, y), (x2, _) = sorted(centre(places[p], m) for p in family.parents)
        ends = ((x1 + m.radius, y), (x2 - m.radius, y))
        yield Joined(ends, family.related, bool(shares), shares[0] if shares else None)
        start = (start[0], y)
    for way, parent in zip(run.ways, family.parents, strict=False):
        points = (*_out(places[parent], way, m), (m.cell * (way + 0.5), heights[0]))
        unsure = parent in family.unsure
        yield Joined(points, dashed=unsure, share=family.unsure.get(parent))
    if len(run.ways) == 2:
        across = sorted(m.cell * (way + 0.5) for way in run.ways)
        yield Joined(((across[0], heights[0]), (across[1], heights[0])), family.related)
    young = [centre(places[y], m) for y in family.young]
    for points in _young(young, start, heights[-1], m):
        yield Joined(points, dashed=family.maybe)


def _out(place: Place, way: float, m: Measures) -> tuple[Point, ...]:
    """From a symbol's side to where its line goes down; past its neighbours below their words."""
    x, y = centre(place, m)
    low, down = y + 0.5 * m.radius, m.cell * (way + 0.5)
    if abs(way - place[0]) < 2 * SIDE - 0.1:
        return ((x, low), (down, low))
    beside = x + m.cell * (SIDE if way > place[0] else -SIDE)
    below = m.row * place[1] + 2 * m.radius + 1 + m.words
    return ((x, low), (beside, low), (beside, below), (down, below))


def _young(
    young: Sequence[Point], start: Point, height: float, m: Measures
) -> Iterator[tuple[Point, ...]]:
    """Down from the parents to one line above all young, and from it to each."""
    across = [x for x, _ in young] + [start[0]]
    yield (start, (start[0], height))
    if min(across) < max(across):
        yield ((min(across), height), (max(across), height))
    for x, y in young:
        yield ((x, height), (x, y - m.radius))
