"""The geometry of fills: slanting strokes within an outline, and its left half."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from warmside.faces.drawn.sketch import Point

APART = 3.0
_CORNERS = 48


def hatching(outline: Sequence[Point], apart: float = APART) -> list[tuple[Point, Point]]:
    """Strokes at 45 degrees within the outline, `apart` points from one to the next.

    Each is a line x + y = c, cut where it enters and leaves (even-odd rule).
    """
    sums = [x + y for x, y in outline]
    if not sums:
        return []
    step = apart * math.sqrt(2)
    strokes = []
    for number in range(math.ceil(min(sums) / step), math.floor(max(sums) / step) + 1):
        cuts = sorted(_cuts(outline, number * step))
        strokes += [pair for pair in zip(cuts[::2], cuts[1::2], strict=False) if pair[0] != pair[1]]
    return strokes


def left_half(outline: Sequence[Point]) -> tuple[Point, ...]:
    """What lies left of the middle between the outermost points (Sutherland and Hodgman 1974)."""
    xs = [x for x, _ in outline]
    if not xs:
        return ()
    middle = (min(xs) + max(xs)) / 2
    kept: list[Point] = []
    for (x0, y0), (x1, y1) in pairwise([*outline, outline[0]]):
        if x0 <= middle:
            kept.append((x0, y0))
        if (x0 - middle) * (x1 - middle) < 0:
            kept.append((middle, y0 + (y1 - y0) * (middle - x0) / (x1 - x0)))
    return tuple(kept)


def circle(centre: Point, radius: float) -> tuple[Point, ...]:
    """Points around a circle, so many that a page does not show the corners."""
    turns = (2 * math.pi * corner / _CORNERS for corner in range(_CORNERS))
    return tuple(
        (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)) for turn in turns
    )


def _cuts(outline: Sequence[Point], total: float) -> list[Point]:
    """Where the line x + y = total crosses the sides; a corner on it counts for one side."""
    cuts = []
    for (x0, y0), (x1, y1) in pairwise([*outline, outline[0]]):
        before, after = x0 + y0 - total, x1 + y1 - total
        if (before < 0) != (after < 0):
            share = before / (before - after)
            cuts.append((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share))
    return cuts
