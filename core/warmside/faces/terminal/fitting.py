"""How columns share a line: the widest give way first, none below what it needs."""

from __future__ import annotations

from collections.abc import Sequence

_HALVINGS = 40


def fitted(natural: Sequence[float], least: Sequence[float], room: float) -> list[float] | None:
    """Breadths that sum to at most `room`: the natural ones under a common ceiling.

    No column falls below its least; None where not even those fit.
    """
    if sum(natural) <= room:
        return list(natural)
    if sum(least) > room:
        return None
    low, high = 0.0, max(natural)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if sum(_under(middle, natural, least)) > room:
            high = middle
        else:
            low = middle
    return _under(low, natural, least)


def _under(ceiling: float, natural: Sequence[float], least: Sequence[float]) -> list[float]:
    return [max(few, min(wide, ceiling)) for wide, few in zip(natural, least, strict=True)]
