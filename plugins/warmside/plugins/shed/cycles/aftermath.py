"""What came of each shed: how it came off, what was left on, and what later looks found."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from msgspec import Struct

from warmside.plugins.shed.cycles.advice import Outcome
from warmside.plugins.shed.cycles.shipped import window

UNNAMED = ("elsewhere",)
NOT_SAID = "not said"
WORST_FIRST = ("pieces", "eaten", "one piece", NOT_SAID)
"""How a shed came off, the worst first; what was said goes before what was not."""


class Look(Struct, frozen=True):
    """The animal was looked at after a shed; `left_on` False where all old skin was off."""

    day: date
    left_on: bool
    where: tuple[str, ...] = ()
    event: int = 0


class Aftermath(NamedTuple):
    """One shed and what came of it.

    `retained` is where skin was ever found after it, `still` where it was at the last look;
    `looked` is the day of that look, None before the first. The slough is in millimetres.
    """

    day: date
    outcome: str
    retained: tuple[str, ...] = ()
    still: tuple[str, ...] = ()
    looked: date | None = None
    slough_mm: float | None = None
    events: tuple[int, ...] = ()

    @property
    def to_be_checked(self) -> bool:
        """Whether nobody has said yet that spectacles, toes and tail tip were looked at."""
        return self.looked is None and not self.retained


def followed(sheds: Iterable[Aftermath], looks: Iterable[Look]) -> tuple[Aftermath, ...]:
    """The sheds of one animal, oldest first, each with the looks up to the next one.

    Sheds a few days apart are one shed written down twice, and become one.
    """
    merged = _merged(sorted(sheds, key=lambda s: (s.day, s.events)))
    in_order = sorted(looks, key=lambda k: (k.day, k.event))
    ends = [*(s.day for s in merged[1:]), date.max][: len(merged)]
    found = []
    for shed, end in zip(merged, ends, strict=True):
        for look in in_order:
            if shed.day <= look.day < end:
                shed = _after(shed, look)
        found.append(shed)
    return tuple(found)


def outcomes(sheds: Sequence[Aftermath]) -> tuple[Outcome, ...]:
    """The outcomes for advice: what was left on, for the last shed only what is on still."""
    earlier = [Outcome(s.day, s.outcome, s.retained) for s in sheds[:-1]]
    last = [Outcome(s.day, None if s.to_be_checked else s.outcome, s.still) for s in sheds[-1:]]
    return (*earlier, *last)


def left_on_in_a_row(sheds: Sequence[Aftermath]) -> int:
    """How many sheds up to the last one, in a row, left skin on, even if it came off later."""
    count = 0
    for shed in reversed(sheds):
        if not shed.retained:
            break
        count += 1
    return count


def _merged(sheds: list[Aftermath]) -> list[Aftermath]:
    made: list[Aftermath] = []
    for shed in sheds:
        if made and (shed.day - made[-1].day).days <= window("one shed").high_days:
            made[-1] = _as_one(made[-1], shed)
        else:
            made.append(shed)
    return made


def _as_one(first: Aftermath, second: Aftermath) -> Aftermath:
    retained = _union(first.retained, second.retained)
    return first._replace(
        outcome=min(first.outcome, second.outcome, key=WORST_FIRST.index),
        retained=retained,
        still=retained,
        slough_mm=first.slough_mm or second.slough_mm,
        events=first.events + second.events,
    )


def _after(shed: Aftermath, look: Look) -> Aftermath:
    where = (look.where or shed.still or UNNAMED) if look.left_on else ()
    return shed._replace(
        retained=_union(shed.retained, where),
        still=where,
        looked=look.day,
        events=(*shed.events, look.event),
    )


def _union(first: tuple[str, ...], second: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*first, *second)))
