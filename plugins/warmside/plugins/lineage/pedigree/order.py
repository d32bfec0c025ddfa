"""The order of the animals within the rows of a drawn pedigree, made better step by step.

The barycentre rule brings relatives near each other, but may leave a stranger between two mates.
One animal after the other is tried at every place of its row and stays where the lines of its
families are shortest (local search; no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from warmside.plugins.lineage.pedigree.people import Family, Id

PASSES = 4
APART, SPREAD, ASIDE = 3.0, 1.0, 0.5
"""What a place between two mates costs, one within a line of sibs, one from parents to young."""


def improve(rows: Sequence[list[Id]], families: Sequence[Family]) -> None:
    """Move animals within their rows, in place, while the lines become shorter by it."""
    of: dict[Id, list[Family]] = {}
    for family in families:
        for id in (*family.parents, *family.young):
            of.setdefault(id, []).append(family)
    widest = max(map(len, rows))
    across = {id: place for row in rows for id, place in _places(row, widest)}
    for _ in range(PASSES):
        moved = [_move(row, id, across, of, widest) for row in rows for id in list(row) if id in of]
        if not any(moved):
            return


def _places(row: Sequence[Id], widest: int) -> Iterator[tuple[Id, float]]:
    """Where the animals of a row stand, about the middle of the drawing."""
    start = (widest - len(row)) / 2
    return ((id, start + n) for n, id in enumerate(row))


def _move(
    row: list[Id],
    id: Id,
    across: dict[Id, float],
    of: Mapping[Id, Sequence[Family]],
    widest: int,
) -> bool:
    """Put one animal where it costs least; whether it moved."""
    touched = list({key: f for other in row for key, f in _keyed(of.get(other, ()))}.values())
    others = [other for other in row if other != id]
    best, least = row.index(id), _cost(touched, across)
    for at in range(len(row)):
        across.update(_places([*others[:at], id, *others[at:]], widest))
        cost = _cost(touched, across)
        if cost < least - 1e-9:
            best, least = at, cost
    moved = best != row.index(id)
    row[:] = [*others[:best], id, *others[best:]]
    across.update(_places(row, widest))
    return moved


def _keyed(families: Sequence[Family]) -> Iterator[tuple[tuple[Id | None, Id | None], Family]]:
    return (((f.dam, f.sire), f) for f in families)


def _cost(families: Sequence[Family], across: Mapping[Id, float]) -> float:
    """How long the lines of these families are."""
    total = 0.0
    for family in families:
        parents = [across[p] for p in family.parents]
        young = [across[y] for y in family.young]
        if len(parents) == 2:
            total += APART * (abs(parents[0] - parents[1]) - 1)
        total += SPREAD * (max(young) - min(young) - len(young) + 1)
        total += ASIDE * abs(sum(parents) / len(parents) - sum(young) / len(young))
    return total
