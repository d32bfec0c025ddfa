"""Doubts about a weighing that is about to be recorded, by those before it.

All limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import exp, log, log1p

from msgspec import Struct

from warmside.plugins.weight.course.limits import CLUTCH_DROP
from warmside.plugins.weight.course.local_fit import fitted
from warmside.plugins.weight.course.series import MassWords, Weighings
from warmside.plugins.weight.slips.suspicion import Suspect, Suspicion
from warmside.plugins.weight.slips.typing_errors import (
    GROWTH,
    PAIR_DAYS,
    far_from,
    pair_of,
    slip_of,
)

_OTHER_JUMP = log(1.35)
_OTHER_MATCH = log(1.07)
_GUT_DAYS = 10.0  # a large meal weighs in the gut for so long
_LONG_GAP, _MOST_GAP = 45.0, 365.0
_SPREADS = 4.0  # what lies further off than so many of its own spreads after a gap is in doubt


class OtherAnimal(Struct, frozen=True):
    """Another animal in the collection with its last mass in g."""

    code: str
    mass_g: float


class Known(Struct, frozen=True):
    """What may explain a mass: days of clutches and litters, and meals as (day, mass in g)."""

    laid: Sequence[float] = ()
    meals: Sequence[tuple[float, float]] = ()


NOTHING = Known()


def entry_suspicions(
    mass_g: float,
    day: float,
    before: Weighings,
    others: Iterable[OtherAnimal] = (),
    known: Known = NOTHING,
) -> tuple[Suspicion, ...]:
    """Doubts about a mass about to be recorded, given the animal's earlier weighings.

    An animal's first weighing cannot be doubted; a slip is preferred to a wrong animal, and either
    to a mass that is only far off. What a clutch, a meal or a long gap explains is no doubt.
    """
    earlier = before.between(0, day)[-12:]
    if not len(earlier):
        return ()
    gap = day - earlier.days[-1]
    expected = exp(explained(log(mass_g), earlier, day, known))
    found = []
    if slip := slip_of(mass_g, expected, gap, ()):
        found.append(slip)
    elif other := _other_animal(mass_g, expected, gap, others):
        found.append(other)
    if gap <= PAIR_DAYS and (
        pair := pair_of(earlier.masses_g[-1], mass_g, gap, earlier.events[-1:])
    ):
        found.append(pair)
    if not found and (far := far_from(mass_g, [log(expected)], (gap, 0.0), ())):
        found.append(far)
    return tuple(found)


def explained(log_mass: float, earlier: Weighings, day: float, known: Known) -> float:
    """The log mass nearest to one that earlier weighings, a clutch, meals and the gap allow.

    By the animal's own growth, after a long gap with the spread of what that leads to expect; a
    clutch or litter since takes up to CLUTCH_DROP off, meals in the gut put their mass on.
    """
    gap = day - earlier.days[-1]
    mean, spread = fitted(earlier).at(min(gap, _MOST_GAP))
    low = high = mean
    if any(earlier.days[-1] <= d <= day for d in known.laid):
        low += log(1 - CLUTCH_DROP)
    gut = sum(mass for when, mass in known.meals if 0 <= day - when < _GUT_DAYS)
    high += log1p(gut / exp(mean))
    room = _SPREADS * spread if gap > _LONG_GAP else 0.0
    return min(max(log_mass, low - room), high + room)


def _other_animal(
    mass: float, expected: float, gap: float, others: Iterable[OtherAnimal]
) -> Suspicion | None:
    if abs(log(mass / expected)) <= _OTHER_JUMP + GROWTH * gap:
        return None
    off = sorted((abs(log(mass / o.mass_g)), o.code) for o in others)
    codes = tuple(code for distance, code in off if distance <= _OTHER_MATCH)[:3]
    if not codes:
        return None
    words = (
        f"{{}} is far from this animal's {{}} but near that of {' or '.join(codes)}; "
        "check which animal was on the scale"
    )
    told = MassWords(words, (mass, expected))
    return Suspicion(Suspect.WRONG_ANIMAL, told, animals=codes)
