"""Labels that must not overlap, each as near to its own place as the others let it."""

from __future__ import annotations

from collections.abc import Sequence


def spread(wanted: Sequence[float], apart: float, low: float, high: float) -> list[float] | None:
    """Places between low and high, `apart` from one to the next, in the order of the wanted.

    The sum of squared moves is least (pooling adjacent violators, Ayer and others 1955), but for
    what the two ends push back. None where there is not room for all.
    """
    if (len(wanted) - 1) * apart > high - low:
        return None
    order = sorted(range(len(wanted)), key=lambda index: (wanted[index], index))
    pooled = _rising([wanted[index] - rank * apart for rank, index in enumerate(order)])
    last = high - (len(wanted) - 1) * apart
    places = [0.0] * len(wanted)
    for rank, (index, place) in enumerate(zip(order, pooled, strict=True)):
        places[index] = min(max(place, low), last) + rank * apart
    return places


def _rising(values: Sequence[float]) -> list[float]:
    """The nearest values that never fall: falling neighbours share their mean."""
    blocks: list[tuple[float, int]] = []
    for value in values:
        block = (value, 1)
        while blocks and blocks[-1][0] > block[0]:
            mean, count = blocks.pop()
            total = count + block[1]
            block = ((mean * count + block[0] * block[1]) / total, total)
        blocks.append(block)
    return [mean for mean, count in blocks for _ in range(count)]
