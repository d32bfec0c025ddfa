"""How closely those are related that may have young together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from warmside.api import Ask, BadInput, Basis, Book, Estimate, Mark, Pair, Source, Unit

RESTS_ON = ("parentage", "animal", "clutch_young")
WRIGHT = Source("Wright 1922 Am Nat 56:330-338", Mark.PUBLISHED)


class PairKinship(Struct, frozen=True):
    """Dam and sire by their ids, the inbreeding to expect of their young, and its range."""

    dam: int
    sire: int
    expected: float
    least: float
    most: float


def pairs_at_hand(ask: Ask, on: date) -> list[PairKinship]:
    """Pairs that may have young now; kept until a family changes."""
    pairs = [_ids(pair) for pair in ask.pairs(on)]
    if not pairs:
        return []
    key = f"lineage.pairs {' '.join(f'{d}-{s}' for d, s in pairs)}"
    kept = ask.book.derived(key, RESTS_ON, lambda: _kinships(ask.book, pairs))
    return [PairKinship(*pair, *found) for pair, found in zip(pairs, kept, strict=True) if found]


def _ids(pair: Pair) -> tuple[int, int]:
    return int(pair.first.animal_id or 0), int(pair.second.animal_id or 0)


def _kinships(book: Book, pairs: Sequence[tuple[int, int]]) -> list[list[float]]:
    """Expected, least and most of each pair; empty where it cannot be reckoned."""
    from warmside.plugins.lineage.kinship.uncertain import kinship_of, ways
    from warmside.plugins.lineage.reading.kin import children

    found: list[list[float]] = []
    for pair in pairs:
        try:
            kinship = kinship_of(ways(children(book, pair)), *pair)
        except BadInput:  # too many uncertain parents to reckon with: nothing is known
            found.append([])
        else:
            found.append([kinship.expected, kinship.least, kinship.most])
    return found


def kinship_answer(book: Book, pair: Pair) -> Iterator[Estimate]:
    """The kinship of a pair as other plugins may ask for it; nothing where it is not known."""
    basis = Basis("exact over all recorded ancestors; founders are taken as unrelated", WRIGHT)
    for found in _kinships(book, [_ids(pair)]):
        if found:
            expected, least, most = found
            yield Estimate(expected, least, most, Unit.RATIO, basis)
