"""`warmside genes ratio`: counts of young against an expected ratio, without a collection."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Annotated

import typer

from warmside.api import Answer, BadInput
from warmside.plugins.genes.telling.ratio import ratio_shown

MOST_YOUNG = 10_000
MOST_CLASSES = 100
COUNT = re.compile(r"\d{1,5}", re.ASCII)
SHARE = re.compile(r"\d{1,6}(\.\d{1,6}|/0*[1-9]\d{0,5})?", re.ASCII)


def ratio(
    context: typer.Context,
    seen: Annotated[str, typer.Option(help="Young counted in each class, as 17,7.")],
    expected: Annotated[str, typer.Option(help="The ratio expected of them, as 3,1.")],
) -> Answer:
    """How well counts of young fit an expected ratio: the exact multinomial test."""
    counts = [int(c) for c in _cells(seen, COUNT, "--seen", "17,7")]
    shares = [Fraction(c) for c in _cells(expected, SHARE, "--expected", "3,1")]
    _check(counts, shares)
    return ratio_shown(counts, shares)


def _cells(text: str, shape: re.Pattern[str], option: str, example: str) -> list[str]:
    cells = [cell.strip() for cell in re.split("[,:]", text)]
    for cell in cells:
        if not shape.fullmatch(cell):
            raise BadInput(f"{option} {text!r}: {cell!r} is no number; write it as {example}")
    return cells


def _check(counts: Sequence[int], shares: Sequence[Fraction]) -> None:
    """Classes that match, at least one young, and numbers that can be reckoned with."""
    if len(counts) != len(shares):
        raise BadInput(
            f"--seen has {len(counts)} numbers, --expected {len(shares)}; give one for each class"
        )
    if len(counts) < 2:
        raise BadInput("one class has no ratio; give at least two, as --seen 17,7 --expected 3,1")
    if not any(counts):
        raise BadInput("no young are counted in --seen; count at least one")
    if not any(shares):
        raise BadInput("--expected is 0 for every class; give at least one class a share")
    if sum(counts) > MOST_YOUNG or len(counts) > MOST_CLASSES:
        raise BadInput(
            f"{sum(counts)} young in {len(counts)} classes are too many; at most {MOST_YOUNG:,} "
            f"young in {MOST_CLASSES} classes are tested: join classes or test fewer young"
        )
