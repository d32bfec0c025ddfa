"""Where the marks of things stand on a plan: within their thing, apart from one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

Box = tuple[float, float, float, float]
"""Left, upper edge, width and height."""
Point = tuple[float, float]
APART = 5.5
"""Millimetres between two marks that are read apart."""
EDGE = 3.5


def placed(boxes: Mapping[str, Box]) -> dict[str, Point]:
    """A point for each mark, in the middle of its box where that is free; the smallest first.

    Where a thing has no free place its mark stands as far from the others as it can.
    """
    found: dict[str, Point] = {}
    for mark, box in sorted(boxes.items(), key=lambda one: one[1][2] * one[1][3]):
        places = list(_places(box))
        free = (p for p in places if _nearest(p, found) >= APART)
        found[mark] = next(free, max(places, key=lambda p: _nearest(p, found)))
    return found


def _places(box: Box) -> Iterator[Point]:
    """The middle, then along both diagonals and the edges, outermost last."""
    left, upper, width, height = box
    middle = (left + width / 2, upper + height / 2)
    yield middle
    steps = 4
    for ring in range(1, steps + 1):
        dx = max(0.0, width / 2 - EDGE) * ring / steps
        dy = max(0.0, height / 2 - EDGE) * ring / steps
        for across, down in ((-1, 0), (1, 0), (0, -1), (0, 1), (-1, -1), (1, -1), (-1, 1), (1, 1)):
            yield middle[0] + across * dx, middle[1] + down * dy


def _nearest(point: Point, others: Mapping[str, Point]) -> float:
    """How far the nearest other mark is, by the larger of both distances."""
    gaps = (max(abs(point[0] - x), abs(point[1] - y)) for x, y in others.values())
    return min(gaps, default=APART)
