"""The young of a clutch together: how many, what they are called, whether the numbers can be."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from warmside.api import BadInput, counted
from warmside.plugins.lineage.hatching.typed import Young
from warmside.plugins.lineage.season.figures import SeasonFigures

MOST_YOUNG = 200
TWINS = 2  # two young of one egg are rare, but known
SOONEST = 0.6  # of the least usual incubation; common practice, no source


def brood_of(described: Sequence[Young], count: int | None) -> list[Young]:
    """The young that were described, and as many more as were counted; BadInput for none."""
    total = len(described) if count is None else count
    if total < len(described):
        said = counted(len(described), "young", "young")
        raise BadInput(f"{said} are described and {total} counted; raise --count or leave it out")
    if not 1 <= total <= MOST_YOUNG:
        raise BadInput(f"{total} young cannot be entered; a clutch has 1 to {MOST_YOUNG}")
    return [*described, *(Young() for _ in range(total - len(described)))]


def named(
    brood: Sequence[Young], stem: str, clutch: str, taken: Collection[str]
) -> Iterator[Young]:
    """Each with a name and a code: the stem and the clutch's code with the next free number."""
    number = 0
    for young in brood:
        number += 1
        while not young.code and _code(clutch, number) in taken:
            number += 1
        code = young.code or _code(clutch, number)
        yield replace(young, code=code, name=young.name or f"{stem} {number}")


def _code(clutch: str, number: int) -> str:
    """`C1-3`; a long code of a clutch is shortened, so that the number fits in a code."""
    return f"{clutch[:8]}-{number}"


def number_doubts(eggs: int | None, young: int) -> Iterator[str]:
    """More young than eggs: asked about where twins can explain it, else BadInput."""
    if eggs is None or young <= eggs:
        return
    said = f"{counted(young, 'young', 'young')} of {counted(eggs, 'egg')}"
    if young > TWINS * eggs:
        raise BadInput(
            f"{said} cannot be; count again, or correct the eggs: warmside clutch change"
        )
    yield f"{said}: two of one egg are rare, count again"


def day_doubts(laid: date | None, hatched: date, figures: SeasonFigures | None) -> Iterator[str]:
    """A hatching before laying is BadInput; one that is far too early is asked about."""
    if laid is None:
        return
    if hatched < laid:
        raise BadInput(f"hatched {hatched} is before laid {laid}; check both days")
    span = figures.incubation if figures else None
    if span and hatched < laid + timedelta(days=round(span.low * SOONEST)):
        days = counted((hatched - laid).days, "day")
        yield f"{days} from laying to hatching, {span.low:g} to {span.high:g} are usual"


def eggs_doubts(eggs: int, largest: int | None) -> Iterator[str]:
    """A clutch that is larger than is known of the species; an impossible one is BadInput."""
    if not 1 <= eggs <= MOST_YOUNG:
        raise BadInput(f"a clutch of {eggs} cannot be; it has 1 to {MOST_YOUNG}")
    if largest is not None and eggs > largest:
        yield f"{counted(eggs, 'egg')} are more than is known of the species ({largest})"
