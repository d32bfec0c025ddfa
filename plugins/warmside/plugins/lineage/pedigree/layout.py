"""Where each animal of a drawn pedigree stands.

Rows are generations. Within a row animals are put where the mean of their parents and young lies,
a few times up and down (the barycentre rule; Sugiyama, Tagawa & Toda 1981, IEEE Trans SMC
11:109-125), then moved apart until nobody stands on another. Then the order within the rows is made
better, and the places are found anew with that order kept.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from warmside.plugins.lineage.pedigree.order import improve
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Id, generations

SWEEPS = 12
Place = tuple[float, int]
"""In widths of a symbol's cell from the left, and the row from the top."""


def layout(animals: Sequence[Drawn], families: Sequence[Family]) -> dict[Id, Place]:
    """The place of each animal; the leftmost stands at 0."""
    row = generations(animals, families)
    rows = [[a.id for a in animals if row[a.id] == n] for n in range(max(row.values()) + 1)]
    across = {id: float(n) for members in rows for n, id in enumerate(members)}
    near = _near(families)
    for sweep in range(SWEEPS):
        for members in rows if sweep % 2 == 0 else reversed(rows):
            _settle(members, across, near, row, down=sweep % 2 == 0)
    improve(rows, [f for f in families if f.parents])
    for sweep in range(SWEEPS):
        for members in rows if sweep % 2 == 0 else reversed(rows):
            _place(members, across, near, row, down=sweep % 2 == 0)
    left = min(across.values())
    return {id: (across[id] - left, row[id]) for id in across}


def _near(families: Sequence[Family]) -> dict[Id, list[Id]]:
    """Parents, young and mates of each."""
    near: dict[Id, list[Id]] = {}
    for family in families:
        for parent in family.parents:
            near.setdefault(parent, []).extend(family.young)
            near[parent].extend(p for p in family.parents if p != parent)
            for young in family.young:
                near.setdefault(young, []).append(parent)
    return near


def _settle(
    members: list[Id],
    across: dict[Id, float],
    near: Mapping[Id, Sequence[Id]],
    row: Mapping[Id, int],
    *,
    down: bool,
) -> None:
    """Sort a row by where its relatives stand, then move its members apart."""
    members.sort(key=lambda id: _mean(id, across, near, row, down=down))
    _place(members, across, near, row, down=down)


def _place(
    members: Sequence[Id],
    across: dict[Id, float],
    near: Mapping[Id, Sequence[Id]],
    row: Mapping[Id, int],
    *,
    down: bool,
) -> None:
    """Put a row, in its order, as near to its relatives as it goes."""
    wanted = [_mean(id, across, near, row, down=down) for id in members]
    for id, place in zip(members, _apart(wanted), strict=True):
        across[id] = place


def _mean(
    id: Id,
    across: Mapping[Id, float],
    near: Mapping[Id, Sequence[Id]],
    row: Mapping[Id, int],
    *,
    down: bool,
) -> float:
    """The mean place of the relatives above (going down) or below, and of mates beside it."""
    wanted = [
        across[other]
        for other in near.get(id, ())
        if row[other] == row[id] or (row[other] < row[id]) == down
    ]
    return sum(wanted) / len(wanted) if wanted else across[id]


def _apart(wanted: Sequence[float]) -> list[float]:
    """Places in the same order, at least 1 apart, as near to those wanted as blocks allow."""
    blocks: list[tuple[float, int]] = []  # sum of (wanted - offset), and how many
    for place in wanted:
        blocks.append((place, 1))
        while len(blocks) > 1 and _start(blocks[-2]) + blocks[-2][1] > _start(blocks[-1]):
            total, size = blocks.pop()
            before, count = blocks.pop()
            blocks.append((before + total - count * size, count + size))
    return [_start(block) + n for block in blocks for n in range(block[1])]


def _start(block: tuple[float, int]) -> float:
    return block[0] / block[1]
