"""Kinship where it is not sure who the parents are: the expected value, and from least to most.

Each way to choose the parents is a pedigree of its own; its kinship counts with its chance.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from itertools import product
from typing import NamedTuple

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.pedigree import Pedigree, Row, pedigree

MOST_WAYS = 2_000
LEFT = 1e-9
"""What shares of probability may fail to reach 1 by rounding."""


class Child(Struct, frozen=True):
    """An animal with the candidates for each parent and their shares; the rest is a stranger.

    Animals that share `together` have the same dam and the same sire, whoever they are.
    """

    id: Hashable
    dams: Mapping[Hashable, float]
    sires: Mapping[Hashable, float]
    together: Hashable | None = None


class Way(NamedTuple):
    """One way to choose all parents, and its chance."""

    chance: float
    known: Pedigree


class Kinship(NamedTuple):
    """A kinship or inbreeding coefficient: expected, least and most; all alike where it is sure."""

    expected: float
    least: float
    most: float


def ways(children: Sequence[Child]) -> list[Way]:
    """Every pedigree that the candidates allow; BadInput where they are too many."""
    questions = _questions(children)
    count = math.prod(len(options) for options in questions.values())
    if count > MOST_WAYS:
        raise BadInput(
            f"uncertain parents allow {count} pedigrees; settle some: warmside animal parents"
        )
    return list(_ways(children, questions))


Options = list[tuple[Hashable | None, float]]


def _questions(children: Sequence[Child]) -> dict[Hashable, Options]:
    """The candidates of each open question, by its key: a role of a child, or of a clutch."""
    return {
        _key(child, role): options
        for child in children
        for role, shares in (("dam", child.dams), ("sire", child.sires))
        if (options := _options(shares)) and len(options) > 1
    }


def _key(child: Child, role: str) -> Hashable:
    shares = child.dams if role == "dam" else child.sires
    if child.together is None:
        return (role, "child", child.id)
    return (role, "together", child.together, tuple(shares.items()))


def _options(shares: Mapping[Hashable, float]) -> Options:
    left = 1 - sum(shares.values())
    known: Options = list(shares.items())
    return [*known, (None, left)] if left > LEFT else known


def _ways(children: Sequence[Child], questions: Mapping[Hashable, Options]) -> Iterator[Way]:
    for chosen in product(*questions.values()):
        answers = dict(zip(questions, (name for name, _ in chosen), strict=True))
        rows = (
            Row(c.id, _parent(c, "dam", answers), _parent(c, "sire", answers)) for c in children
        )
        yield Way(math.prod(share for _, share in chosen), pedigree(rows))


def _parent(
    child: Child, role: str, answers: Mapping[Hashable, Hashable | None]
) -> Hashable | None:
    key = _key(child, role)
    if key in answers:
        return answers[key]
    shares = child.dams if role == "dam" else child.sires
    return next(iter(shares), None)


def kinship_of(found: Sequence[Way], one: Hashable, other: Hashable) -> Kinship:
    """The kinship of two animals over all ways; of their planned young it is the inbreeding."""
    values = [(w.chance, _in(w.known, one, other)) for w in found]
    return _spread(values)


def inbreeding_of(found: Sequence[Way], animal: Hashable) -> Kinship:
    """The inbreeding coefficient of an animal over all ways."""
    return _spread([(w.chance, inbreeding(w.known)[w.known.place[animal]]) for w in found])


def _in(known: Pedigree, one: Hashable, other: Hashable) -> float:
    return kinship(known, inbreeding(known), known.place[one], known.place[other])


def _spread(values: Sequence[tuple[float, float]]) -> Kinship:
    expected = math.fsum(chance * value for chance, value in values)
    found = [value for _, value in values]
    return Kinship(expected, min(found), max(found))
