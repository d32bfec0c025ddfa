"""Wright's coefficient of inbreeding of all animals of a pedigree at once, exactly.

An animal's F is the kinship of its parents (Wright 1922, Am Nat 56:330-338; Malecot 1948). The
kinship of a newcomer with anyone is the mean of its parents' kinship with them (the tabular rule;
Emik & Terrill 1949, J Hered 40:51-55), so only animals that are still to become parents need a
row: the table is as wide as the animals that breed at one time, not as the pedigree.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from warmside.plugins.lineage.kinship.pedigree import UNKNOWN, Pedigree

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


def inbreeding(known: Pedigree) -> list[float]:
    """F of each animal in the order of the pedigree, founders 0 and related to nobody.

    Time grows with the animals times those that breed at one time; memory with the square of the
    latter.
    """
    last_use = _last_use(known)
    table = _Table()
    of_mating: dict[tuple[int, int], float] = {}
    found: list[float] = []
    for place, (dam, sire) in enumerate(zip(known.dam, known.sire, strict=True)):
        f = 0.0
        if UNKNOWN not in (dam, sire):
            if (dam, sire) not in of_mating:
                of_mating[dam, sire] = table.kinship(dam, sire)
            f = of_mating[dam, sire]
        found.append(f)
        if last_use[place] > place:
            table.add(place, dam, sire, f)
        table.drop(p for p in {dam, sire} if p != UNKNOWN and last_use[p] == place)
    return found


def _last_use(known: Pedigree) -> list[int]:
    """The place of the last young of each animal; its own where it has none."""
    last = list(range(len(known.ids)))
    for place, parents in enumerate(zip(known.dam, known.sire, strict=True)):
        for parent in parents:
            if parent != UNKNOWN:
                last[parent] = place
    return last


class _Table:
    """Kinship among the animals that will still be parents; a row is reused when one is done."""

    def __init__(self) -> None:
        import numpy as np  # late: a tenth of a second

        self._zeros = np.zeros
        self._cells: NDArray[np.float64] = np.zeros((64, 64))
        self._row: dict[int, int] = {}
        self._free = list(range(63, -1, -1))

    def kinship(self, one: int, other: int) -> float:
        return float(self._cells[self._row[one], self._row[other]])

    def add(self, place: int, dam: int, sire: int, f: float) -> None:
        if not self._free:
            self._grow()
        parents = [self._row[p] for p in (dam, sire) if p != UNKNOWN]
        row = self._free.pop()
        line = self._mean(parents)
        self._cells[row] = line
        self._cells[:, row] = line
        self._cells[row, row] = (1 + f) / 2
        self._row[place] = row

    def _mean(self, rows: Sequence[int]) -> NDArray[np.float64] | float:
        """Half the sum of the parents' rows; a parent who is not known is related to nobody."""
        if len(rows) == 2:
            both: NDArray[np.float64] = self._cells[rows[0]] + self._cells[rows[1]]
            both *= 0.5
            return both
        return self._cells[rows[0]] * 0.5 if rows else 0.0

    def drop(self, places: Iterable[int]) -> None:
        for place in places:
            row = self._row.pop(place)
            self._cells[row] = 0.0
            self._cells[:, row] = 0.0
            self._free.append(row)

    def _grow(self) -> None:
        size = len(self._cells)
        wider = self._zeros((2 * size, 2 * size))
        wider[:size, :size] = self._cells
        self._cells = wider
        self._free.extend(range(2 * size - 1, size - 1, -1))
