"""The paths by which two animals are related: Wright's paths through their common ancestors."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from itertools import count
from typing import NamedTuple

from warmside.plugins.lineage.kinship.pedigree import Pedigree

MOST_STEPS = 200_000


class Path(NamedTuple):
    """From one animal up to a common ancestor and down to the other; what it adds to kinship."""

    up: tuple[int, ...]
    ancestor: int
    down: tuple[int, ...]
    adds: float


def paths(known: Pedigree, f: Sequence[float], one: int, other: int, most: int) -> list[Path]:
    """The paths that add most, at most so many; all together they add up to the kinship."""
    found = _paths(known, f, one, other)
    return [path for _, path in zip(range(most), found, strict=False)]


def _paths(known: Pedigree, f: Sequence[float], one: int, other: int) -> Iterator[Path]:
    """Replace the younger of two animals by its parents until both are the same animal.

    The walks that may add most go first, so paths come in falling order of what they can add.
    """
    common = ancestors(known, one) & ancestors(known, other)
    order = count()
    waiting: list[tuple[float, int, tuple[int, ...], tuple[int, ...], bool]] = []

    def put(bound: float, up: tuple[int, ...], down: tuple[int, ...]) -> None:
        ends = up[-1] == down[-1]
        worth = bound * (1 + f[up[-1]]) / 2 if ends else bound
        heapq.heappush(waiting, (-worth, next(order), up, down, ends))

    put(1.0, (one,), (other,))
    for _ in range(MOST_STEPS):
        if not waiting:
            return
        worth, _, up, down, ends = heapq.heappop(waiting)
        if ends:
            yield Path(up[:-1], up[-1], down[:-1][::-1], -worth)
            continue
        side = up if up[-1] > down[-1] else down
        for parent in known.parents(side[-1]):
            if parent >= 0 and (parent in common or _leads(known, parent, common)):
                longer = (*side, parent)
                put(-worth / 2, *((longer, down) if side is up else (up, longer)))


def ancestors(known: Pedigree, animal: int) -> set[int]:
    """The animal itself and all its ancestors."""
    found: set[int] = set()
    waiting = [animal]
    while waiting:
        if (place := waiting.pop()) not in found and place >= 0:
            found.add(place)
            waiting.extend(known.parents(place))
    return found


def _leads(known: Pedigree, animal: int, common: set[int]) -> bool:
    return not common.isdisjoint(ancestors(known, animal))
