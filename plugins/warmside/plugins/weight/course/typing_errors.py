"""Weighings that look mistyped: a slipped point, grams for ounces, another animal's weight.

Suspicions only: nothing is dropped or changed here. All limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise
from math import exp, log, log1p

from msgspec import Struct

from warmside.plugins.weight.course.limits import CLUTCH_DROP
from warmside.plugins.weight.course.local_fit import fitted
from warmside.plugins.weight.course.series import MassWords, Weighings, middle

_GRAMS_PER_OUNCE = 28.349523125
_GRAMS_PER_POUND = 453.59237
_SLIPS = (
    (10.0, "the point slipped one place"),
    (100.0, "the point slipped two places"),
    (1000.0, "kilograms and grams were mixed up"),
    (_GRAMS_PER_OUNCE, "grams and ounces were mixed up"),
    (_GRAMS_PER_POUND, "grams and pounds were mixed up"),
)
_SIGNED = [(sign * log(f), why) for f, why in _SLIPS for sign in (1, -1)]
_MATCH = log(1.3)  # how near to the exact factor a slip must come
_JUMP = log(1.8)  # no meal, clutch or litter changes a mass so much between two weighings
_GROWTH = log(12) / 365  # a fast hatchling's first year, a day
_OTHER_JUMP = log(1.35)
_OTHER_MATCH = log(1.07)
_LOOK = log(1.5)  # smaller steps between neighbours are not looked into
_PAIR_RATIO = 1.5
_GUT_DAYS = 10.0  # a large meal weighs in the gut for so long
_LONG_GAP, _MOST_GAP = 45.0, 365.0
_SPREADS = 4.0  # what lies further off than so many of its own spreads after a gap is in doubt
_PAIR_DAYS = 60 / 1440


class Suspect(StrEnum):
    """What may have gone wrong at the keyboard or the scale."""

    SLIP = "slip"
    FAR = "far"
    WRONG_ANIMAL = "wrong animal"
    CLOSE_PAIR = "close pair"


class Suspicion(Struct, frozen=True):
    """A doubt about a weighing, in words; `events` are those in doubt (none before entry).

    `meant_g` is the mass that would fit; `animals` are codes whose own mass fits, nearest first.
    """

    kind: Suspect
    words: MassWords
    events: tuple[int, ...] = ()
    meant_g: float | None = None
    animals: tuple[str, ...] = ()


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
    others: Sequence[OtherAnimal] = (),
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
    if slip := _slip(mass_g, expected, gap, ()):
        found.append(slip)
    elif other := _other_animal(mass_g, expected, gap, others):
        found.append(other)
    if gap <= _PAIR_DAYS and (
        pair := _pair(earlier.masses_g[-1], mass_g, gap, earlier.events[-1:])
    ):
        found.append(pair)
    if not found and (far := _far(mass_g, [log(expected)], (gap, 0.0), ())):
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


def history_suspicions(those: Weighings, laid: Sequence[float] = ()) -> tuple[Suspicion, ...]:
    """Doubts about recorded weighings, oldest first; each names its events.

    Weighings before and after a clutch or litter are not compared with each other.
    """
    logs = list(map(log, those.masses_g))
    jumps = [k for k, (a, b) in enumerate(pairwise(logs)) if abs(b - a) >= _LOOK]
    found = []
    for i in sorted({*jumps, *(k + 1 for k in jumps)}):
        around = neighbours(those, i, laid)
        if len(around) > 1:
            expected = exp(middle(logs[k] for k in around))
            gap = middle(abs(those.days[k] - those.days[i]) for k in around)
            slip = _slip(those.masses_g[i], expected, gap, (those.events[i],))
            if slip:
                found.append(slip)
    slipped = {event for one in found for event in one.events}
    for i in jumps:
        gap = those.days[i + 1] - those.days[i]
        events = those.events[i : i + 2]
        if gap <= _PAIR_DAYS and not slipped & set(events):
            pair = _pair(those.masses_g[i], those.masses_g[i + 1], gap, events)
            found += [pair] if pair else []
    doubted = {e for one in found for e in one.events}
    return (*found, *_far_off(those, logs, jumps, doubted, laid))


def neighbours(those: Weighings, place: int, laid: Sequence[float] = ()) -> list[int]:
    """The two weighings on each side of one, but none beyond a clutch or litter."""
    near = [k for k in (place - 2, place - 1, place + 1, place + 2) if 0 <= k < len(those)]
    if not laid:
        return near
    day = those.days[place]
    spans = {k: sorted((those.days[k], day)) for k in near}
    return [k for k, (first, last) in spans.items() if not any(first <= d <= last for d in laid)]


def slipped_events(suspicions: Sequence[Suspicion]) -> frozenset[int]:
    """Events suspected of a slip of factor ten and the like, which no check should rest on."""
    return frozenset(e for one in suspicions if one.kind is Suspect.SLIP for e in one.events)


def _far_off(
    those: Weighings,
    logs: Sequence[float],
    jumps: Sequence[int],
    doubted: set[int],
    laid: Sequence[float],
) -> Iterator[Suspicion]:
    """Weighings far from neighbours that agree; those in doubt already are no neighbours."""
    for i in sorted({*jumps, *(k + 1 for k in jumps)}):
        around = [k for k in neighbours(those, i, laid) if those.events[k] not in doubted]
        if len(around) > 1 and those.events[i] not in doubted:
            away = [those.days[k] - those.days[i] for k in around]
            gaps = middle(map(abs, away)), max(middle(away), 0.0)
            mass, events = those.masses_g[i], (those.events[i],)
            if far := _far(mass, [logs[k] for k in around], gaps, events):
                yield far


def _far(
    mass: float, around: Sequence[float], gaps: tuple[float, float], events: tuple[int, ...]
) -> Suspicion | None:
    """A mass beyond any change between weighings, where the log masses around it agree.

    `gaps` are the days within which it may have grown to that mass, and those since it within which
    it may have grown to the masses around it: a hatchling's first weighing is the least.
    """
    expected = exp(middle(around))
    ratio = log(mass / expected)
    most = _JUMP + _GROWTH * gaps[0 if ratio > 0 else 1]
    if max(around) - min(around) > _LOOK or abs(ratio) <= most:
        return None
    words = (
        f"{{}} is {mass / expected:.2g} times the {{}} of the weighings near it; "
        "check the number and the scale"
    )
    return Suspicion(Suspect.FAR, MassWords(words, (mass, expected)), events)


def _slip(mass: float, expected: float, gap: float, events: tuple[int, ...]) -> Suspicion | None:
    ratio = log(mass / expected)
    if abs(ratio) <= _JUMP + _GROWTH * gap:
        return None
    exact, why = min(_SIGNED, key=lambda one: abs(one[0] - ratio))
    if abs(exact - ratio) > _MATCH:
        return None
    meant = mass / exp(exact)
    words = f"{{}} is far from the {{}} of the weighings near it; perhaps {why} and {{}} was meant"
    return Suspicion(Suspect.SLIP, MassWords(words, (mass, expected, meant)), events, meant)


def _other_animal(
    mass: float, expected: float, gap: float, others: Sequence[OtherAnimal]
) -> Suspicion | None:
    if abs(log(mass / expected)) <= _OTHER_JUMP + _GROWTH * gap:
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


def _pair(first: float, second: float, gap: float, events: tuple[int, ...]) -> Suspicion | None:
    if max(first, second) < _PAIR_RATIO * min(first, second):
        return None
    when = f"within {max(round(gap * 1440), 1)} min" if gap else "on one day, both without a time"
    words = f"{{}} and {{}} {when}; one of the two is wrong"
    return Suspicion(Suspect.CLOSE_PAIR, MassWords(words, (first, second)), events)
