"""Heights of horizontal lines in one gap between rows: lines that would meet lie apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Span = tuple[float, float]
"""From where to where a line goes."""
BETWEEN = 0.15


def levels(spans: Mapping[int, Sequence[Span]]) -> dict[int, tuple[int, ...]]:
    """The level of each line, from above; the lines of one family in their order, none above.

    The first family from the left gets the first levels that are free along its lines.
    """
    taken: list[list[Span]] = []
    found: dict[int, tuple[int, ...]] = {}
    for number in sorted(spans, key=lambda n: min(span[0] for span in spans[n])):
        mine: list[int] = []
        for span in spans[number]:
            level = mine[-1] + 1 if mine else 0
            while level < len(taken) and any(_meet(span, other) for other in taken[level]):
                level += 1
            if level == len(taken):
                taken.append([])
            taken[level].append(span)
            mine.append(level)
        found[number] = tuple(mine)
    return found


def _meet(one: Span, other: Span) -> bool:
    return one[0] - BETWEEN < other[1] and other[0] - BETWEEN < one[1]
