"""Stretches of days from marks that say begun or ended."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf


def spans(marks: Iterable[tuple[float, bool]]) -> tuple[tuple[float, float], ...]:
    """(begin, end) of each stretch, marks in order of day; open ends are infinite.

    An end without a begin counts only as the first mark: it began before the record did.
    """
    found: list[tuple[float, float]] = []
    begin: float | None = -inf
    for day, begun in marks:
        if begun:
            begin = day if begin is None or begin == -inf else begin
        elif begin is not None:
            found.append((begin, day))
            begin = None
    if begin is not None and begin != -inf:
        found.append((begin, inf))
    return tuple(found)
