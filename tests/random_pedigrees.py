"""Pedigrees for tests and benches: written shortly, drawn at random, large."""

from __future__ import annotations

import random

from hypothesis import strategies as st

from warmside.plugins.lineage.kinship.pedigree import Pedigree, Row, pedigree

Parents = tuple[int, int] | None


def mixed(n: int, seed: int = 1, generations: int = 10) -> Pedigree:
    """A fiftieth are founders; parents come from the last tenth of those before."""
    draw = random.Random(seed)
    founders = max(20, n // 50)
    window = max(founders, n // generations)
    males, females = list(range(0, founders, 2)), list(range(1, founders, 2))
    rows: list[Parents] = [None] * founders
    for id in range(founders, n):
        near = [
            [p for p in sex[-window:] if p >= id - window] or sex[-1:] for sex in (females, males)
        ]
        rows.append((draw.choice(near[0]), draw.choice(near[1])))
        draw.choice((males, females)).append(id)
    return _pedigree(rows)


def clutches(n: int, seed: int = 1, bought_in: float = 0.35, window: int = 400) -> Pedigree:
    """Clutches of eight from recent parents, with many unrelated animals bought in."""
    draw = random.Random(seed)
    rows: list[Parents] = []
    while len(rows) < n:
        if len(rows) < 20 or draw.random() < bought_in:
            rows.append(None)
            continue
        recent = range(max(0, len(rows) - window), len(rows))
        dam, sire = (draw.choice([p for p in recent if p % 2 == sex]) for sex in (1, 0))
        rows += [(dam, sire)] * 8
    return _pedigree(rows[:n])


def _pedigree(rows: list[Parents]) -> Pedigree:
    return pedigree(Row(id, *(parents or (None, None))) for id, parents in enumerate(rows))


def of(text: str) -> Pedigree:
    """A pedigree written `child:dam,sire`, 0 for unknown."""
    rows = []
    for part in text.split():
        id, parents = part.split(":")
        dam, sire = (None if p == "0" else p for p in parents.split(","))
        rows.append(Row(id, dam, sire))
    return pedigree(rows)


TWELVE = of("A:0,0 B:0,0 C:0,0 D:B,A E:B,A F:C,A G:D,E H:D,F I:H,G J:H,G K:J,I L:D,K")
"""Loops of several kinds; A, B and C are founders."""


@st.composite
def small_ones(draw: st.DrawFn) -> Pedigree:
    """Up to 14 animals with any parents among those before."""
    rows = [Row(0, None, None), Row(1, None, None)]
    for id in range(2, draw(st.integers(3, 14))):
        dam = draw(st.none() | st.integers(0, id - 1))
        sire = draw(st.none() | st.integers(0, id - 1).filter(lambda s, d=dam: s != d))
        rows.append(Row(id, dam, sire))
    return pedigree(rows)
