"""Exact probabilities of discrete values that are joined by tables, by variable elimination.

Values are eliminated one after the other, the cheapest first; the tables met on the way make a
tree of cliques, and one pass back along it gives the probability of every value at once (Lauritzen
& Spiegelhalter 1988, J R Stat Soc B 50:157-224; Dechter 1999, Artif Intell 113:41-85). Exact to
rounding; an impossible combination stays an exact zero.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from msgspec import Struct

from warmside.api import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Cells = NDArray[np.float64]

LARGEST_TABLE = 2**24
"""Cells of the largest table that is worked with: 128 MB of memory."""


class Impossible(Exception):
    """What is said to be so has probability 0."""


class Factor(NamedTuple):
    """A table over some values, one axis each."""

    variables: tuple[int, ...]
    cells: Cells


class Network:
    """Values, each with a number of states, and the tables whose product is their probability."""

    def __init__(self) -> None:
        self.sizes: list[int] = []
        self.factors: list[Factor] = []

    def variable(self, size: int) -> int:
        """A new value with so many states."""
        self.sizes.append(size)
        return len(self.sizes) - 1

    def join(self, variables: Sequence[int], cells: Cells) -> None:
        """Multiply with a table over these values, its axes in their order."""
        self.factors.append(Factor(tuple(variables), cells))


class Beliefs(Struct, frozen=True):
    """The probabilities of all values, given all tables; `log_chance` that of what is given."""

    cliques: Mapping[int, Factor]
    order: Mapping[int, int]
    log_chance: float

    def of(self, *variables: int) -> Cells:
        """The joint probability of values that stand together in some table, axes in this order."""
        first = min(variables, key=self.order.__getitem__)
        clique = self.cliques[first]
        return _onto(clique, variables)


def beliefs(network: Network) -> Beliefs:
    """The probability of every value.

    Raises Impossible where no combination is possible, and BadInput where the values hang together
    so closely that a table would be too large.
    """
    order, cliques = _elimination(network)
    tables, messages, log_chance = _inward(network, order, cliques)
    return Beliefs(_outward(order, cliques, tables, messages), order, log_chance)


def _elimination(network: Network) -> tuple[dict[int, int], dict[int, tuple[int, ...]]]:
    """When each value is eliminated, and the values that it then stands together with."""
    sizes, near = network.sizes, _neighbours(network)
    waiting = [(_cost(v, near[v], sizes), v) for v in range(len(sizes))]
    heapq.heapify(waiting)
    order: dict[int, int] = {}
    cliques: dict[int, tuple[int, ...]] = {}
    while waiting:
        cost, v = heapq.heappop(waiting)
        if v in order or cost != _cost(v, near[v], sizes):
            continue
        if cost > LARGEST_TABLE:
            raise BadInput("these animals are too closely interwoven to reckon with exactly")
        around = near[v]
        order[v], cliques[v] = len(order), (v, *sorted(around))
        for other in around:
            near[other] |= around
            near[other] -= {v, other}
            heapq.heappush(waiting, (_cost(other, near[other], sizes), other))
    return order, cliques


def _neighbours(network: Network) -> list[set[int]]:
    near: list[set[int]] = [set() for _ in network.sizes]
    for variables, _ in network.factors:
        for v in variables:
            near[v].update(variables)
    for v, around in enumerate(near):
        around.discard(v)
    return near


def _cost(v: int, around: Iterable[int], sizes: Sequence[int]) -> int:
    return sizes[v] * math.prod(sizes[o] for o in around)


def _inward(
    network: Network, order: Mapping[int, int], cliques: Mapping[int, tuple[int, ...]]
) -> tuple[dict[int, Factor], dict[int, Factor], float]:
    """The table of each clique with what reached it, and the message that it sent on."""
    import numpy as np  # late: a tenth of a second

    held: dict[int, list[Factor]] = {v: [] for v in order}
    for factor in network.factors:
        held[min(factor.variables, key=order.__getitem__)].append(factor)
    tables: dict[int, Factor] = {}
    messages: dict[int, Factor] = {}
    log_chance = 0.0
    for v in order:
        clique = cliques[v]
        cells = np.ones([network.sizes[c] for c in clique])
        for factor in held[v]:
            cells = cells * _spread(factor, clique)
        sent = cells.sum(axis=0)
        total = float(sent.sum())
        if total == 0.0:
            raise Impossible
        log_chance += math.log(total)
        tables[v] = Factor(clique, cells / total)
        messages[v] = Factor(clique[1:], sent / total)
        if clique[1:]:
            held[min(clique[1:], key=order.__getitem__)].append(messages[v])
    return tables, messages, log_chance


def _outward(
    order: Mapping[int, int],
    cliques: Mapping[int, tuple[int, ...]],
    tables: Mapping[int, Factor],
    messages: Mapping[int, Factor],
) -> dict[int, Factor]:
    """The joint probability of each clique: its table, corrected by what came from elsewhere."""
    import numpy as np

    found: dict[int, Factor] = {}
    for v in reversed(list(order)):
        clique, cells = tables[v]
        if between := clique[1:]:
            parent = min(between, key=order.__getitem__)
            known, sent = _onto(found[parent], between), messages[v].cells
            ratio = np.divide(known, sent, out=np.zeros_like(known), where=sent > 0)
            cells = cells * ratio
        found[v] = Factor(clique, cells)
    return found


def _spread(factor: Factor, clique: tuple[int, ...]) -> Cells:
    """A table with the axes of the clique, of length 1 where it says nothing."""
    axes = sorted(range(len(factor.variables)), key=lambda a: clique.index(factor.variables[a]))
    turned = factor.cells.transpose(axes)
    names = set(factor.variables)
    lengths = iter(turned.shape)
    return turned.reshape([next(lengths) if c in names else 1 for c in clique])


def _onto(factor: Factor, variables: Sequence[int]) -> Cells:
    """A table summed over all but some of its values, whose axes are put in their order."""
    wanted = set(variables)
    rest = tuple(n for n, v in enumerate(factor.variables) if v not in wanted)
    left = [v for v in factor.variables if v in wanted]
    summed: Cells = factor.cells.sum(axis=rest)
    return summed.transpose([left.index(v) for v in variables])
