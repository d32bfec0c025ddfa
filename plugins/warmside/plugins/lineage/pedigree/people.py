"""The animals of a drawing, as far as the drawing needs to know them."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from enum import StrEnum
from typing import NamedTuple

from msgspec import Struct

Id = Hashable


class Shows(StrEnum):
    """What is drawn into the symbol of an animal, of one trait."""

    NOTHING = "not known to carry it"
    CARRIES = "carries it (het, or one copy)"
    VISUAL = "shows it"


class Drawn(Struct, frozen=True):
    """One animal, or a `number` of them: sex, words below the symbol, what shows of the trait."""

    id: Id
    sex: str
    words: tuple[str, ...]
    shows: Shows = Shows.NOTHING
    dead: bool = False
    index: bool = False
    number: int = 1


class Family(NamedTuple):
    """Parents with their young, oldest first; `unsure` has the share of an uncertain parent.

    `related` is for parents who have an ancestor in common; `maybe` is a pair that may be the
    parents of young who hang from a likelier one, too.
    """

    dam: Id | None
    sire: Id | None
    young: tuple[Id, ...]
    unsure: Mapping[Id, float | None]
    related: bool = False
    maybe: bool = False

    @property
    def parents(self) -> tuple[Id, ...]:
        """Those that are known, the sire first: he stands at the left."""
        return tuple(p for p in (self.sire, self.dam) if p is not None)


def generations(animals: Sequence[Drawn], families: Sequence[Family]) -> dict[Id, int]:
    """The row of each animal: below its parents; one without parents just above its young.

    The oldest row is 0.
    """
    joined = [f for f in families if f.parents]
    row = _longest_lines(animals, joined)
    born = {young for family in joined for young in family.young}
    for founder in (id for id in row if id not in born):
        below = [row[young] for f in joined if founder in f.parents for young in f.young]
        row[founder] = min(below, default=1) - 1
    return row


def _longest_lines(animals: Sequence[Drawn], families: Sequence[Family]) -> dict[Id, int]:
    """How many generations of ancestors each has in the drawing."""
    row = {a.id: 0 for a in animals}
    for _ in animals:
        before = dict(row)
        for family in families:
            below = 1 + max(row[p] for p in family.parents)
            row |= {young: max(row[young], below) for young in family.young}
        if row == before:
            break
    return row
