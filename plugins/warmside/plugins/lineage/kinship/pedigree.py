"""A pedigree as arrays: parents come before their young, and each animal is a number."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import NamedTuple

from msgspec import Struct

from warmside.api import BadInput

UNKNOWN = -1


class Loop(BadInput):
    """An animal that is its own ancestor; `ids` go from it to it, each as the young of the next."""

    def __init__(self, ids: Sequence[Hashable]) -> None:
        self.ids = tuple(ids)
        told = " < ".join(map(str, ids))
        super().__init__(f"a loop in the parents, {told}: nobody is their own ancestor")


class Row(NamedTuple):
    """An animal with its dam and sire, each None where not known."""

    id: Hashable
    dam: Hashable | None
    sire: Hashable | None


class Pedigree(Struct, frozen=True):
    """Animals in an order in which parents come first; `dam` and `sire` are places in it, or -1."""

    ids: tuple[Hashable, ...]
    dam: tuple[int, ...]
    sire: tuple[int, ...]
    place: Mapping[Hashable, int]

    def parents(self, place: int) -> tuple[int, int]:
        """The places of dam and sire, -1 where not known."""
        return self.dam[place], self.sire[place]


def pedigree(rows: Iterable[Row]) -> Pedigree:
    """Put animals in order; a parent without a row of its own is a founder.

    Raises BadInput for an animal with two rows, one that is both its own parents' roles, and for
    a loop in time, which is named.
    """
    known: dict[Hashable, Row] = {}
    for row in rows:
        if row.id in known:
            raise BadInput(f"{row.id} is there twice; keep one row an animal")
        known[row.id] = row
    for row in list(known.values()):
        for parent in (row.dam, row.sire):
            if parent is not None:
                known.setdefault(parent, Row(parent, None, None))
        if row.dam is not None and row.dam == row.sire:
            raise BadInput(f"{row.id} has {row.dam} as dam and as sire; one of them is wrong")
    return _numbered(_parents_first(known), known)


def _numbered(order: Sequence[Hashable], known: Mapping[Hashable, Row]) -> Pedigree:
    place = {id: n for n, id in enumerate(order)}
    dams = tuple(_place(place, known[id].dam) for id in order)
    sires = tuple(_place(place, known[id].sire) for id in order)
    return Pedigree(tuple(order), dams, sires, place)


def _place(place: Mapping[Hashable, int], id: Hashable | None) -> int:
    return UNKNOWN if id is None else place[id]


def _parents_first(known: Mapping[Hashable, Row]) -> list[Hashable]:
    """Depth first without recursion, so that a deep pedigree does not end in an error."""
    order: list[Hashable] = []
    done: set[Hashable] = set()
    for start in known:
        path: dict[Hashable, None] = {}
        waiting = [start]
        while waiting:
            id = waiting[-1]
            if id in done:
                waiting.pop()
                continue
            open_parents = [p for p in _parents(known[id]) if p not in done]
            if not open_parents:
                done.add(id)
                order.append(id)
                path.pop(id, None)
                waiting.pop()
                continue
            path[id] = None
            if (seen := next((p for p in open_parents if p in path), None)) is not None:
                raise Loop(_loop(list(path), seen))
            waiting.extend(open_parents)
    return order


def _parents(row: Row) -> list[Hashable]:
    return [p for p in (row.dam, row.sire) if p is not None]


def _loop(path: Sequence[Hashable], back_to: Hashable) -> list[Hashable]:
    """The animals of a loop, each as the young of the next."""
    return [*path[path.index(back_to) :], back_to]
