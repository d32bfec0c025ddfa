"""Do sheds go wrong more often in dry air or without misting? Counts across the collection.

What is found is an association in this collection, not a cause.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from statistics import median

from msgspec import Struct

from warmside.api import BadInput, counted, figures
from warmside.plugins.shed.causes.exact import Counts, fisher, least_possible, odds_interval
from warmside.plugins.shed.cycles.aftermath import NOT_SAID

LEVEL = 0.05
DAYS_BEFORE = 14  # the longest usual visible cycle; common practice, no source


class ShedSeen(Struct, frozen=True):
    """One shed: whose, whether it went wrong, and the air before it where that is on record.

    `went_wrong` is None where nobody said how it came off: it is in no comparison.
    `humidity_percent` is the middle reading before the shed, `mistings` how often it was misted;
    either is None where nothing was recorded.
    """

    animal: int
    went_wrong: bool | None
    humidity_percent: float | None = None
    mistings: int | None = None
    event: int = 0


class Group(Struct, frozen=True):
    """Sheds of one group: how many went wrong, and the 95 % interval of that share (0 to 1)."""

    name: str
    bad: int
    total: int
    low: float | None
    high: float | None


class Comparison(Struct, frozen=True):
    """Two groups of sheds side by side.

    `p_value` and the interval of the odds ratio are None where there are not enough sheds.
    """

    question: str
    first: Group
    second: Group
    animals: int
    p_value: float | None
    odds_low: float | None
    odds_high: float | None
    words: str
    events: tuple[int, ...]


def went_wrong(outcome: str, retained: Sequence[str]) -> bool | None:
    """Whether a shed counts as gone wrong: in pieces, or with skin left on; None: not said."""
    if retained:
        return True
    return None if outcome == NOT_SAID else outcome == "pieces"


def middle_before(
    day: date, readings: Iterable[tuple[date, float]], days: int = DAYS_BEFORE
) -> float | None:
    """The median of the readings in the days before a shed and on its day, or None."""
    near = [value for on, value in readings if 0 <= (day - on).days <= days]
    return median(near) if near else None


def times_before(day: date, on_days: Iterable[date], days: int = DAYS_BEFORE) -> int:
    """How often something was done in the days before a shed and on its day."""
    return sum(0 <= (day - on).days <= days for on in on_days)


def by_humidity(sheds: Iterable[ShedSeen], percent: float) -> Comparison:
    """Sheds in drier air against sheds at or above a relative humidity in percent."""
    if not 0 < percent < 100:
        raise BadInput(f"{percent:g} % parts no humidities; give a number between 0 and 100")
    known = [(s, s.humidity_percent) for s in _told(sheds) if s.humidity_percent is not None]
    dry = [s for s, humidity in known if humidity < percent]
    moist = [s for s, humidity in known if humidity >= percent]
    names = f"below {percent:g} % humidity", f"at {percent:g} % humidity or more"
    return _compare("humidity before the shed", names, dry, moist)


def by_misting(sheds: Iterable[ShedSeen], times: int = 1) -> Comparison:
    """Sheds misted fewer times than `times` before them against those misted as often or more."""
    if times < 1:
        raise BadInput(f"{times} mistings part no sheds; give 1 or more")
    known = [(s, s.mistings) for s in _told(sheds) if s.mistings is not None]
    few = [s for s, mistings in known if mistings < times]
    often = [s for s, mistings in known if mistings >= times]
    names = "not misted", "misted"
    if times > 1:
        names = f"misted fewer than {times} times", f"misted {times} times or more"
    return _compare("misting before the shed", names, few, often)


def _told(sheds: Iterable[ShedSeen]) -> Iterator[ShedSeen]:
    return (s for s in sheds if s.went_wrong is not None)


def _compare(
    question: str, names: tuple[str, str], first: list[ShedSeen], second: list[ShedSeen]
) -> Comparison:
    counts = Counts(*_bad_good(first), *_bad_good(second))
    groups = (
        _group(names[0], counts.first_bad, counts.first),
        _group(names[1], counts.second_bad, counts.second),
    )
    enough = least_possible(counts) < LEVEL
    p_value = fisher(counts) if enough else None
    odds = odds_interval(counts) if enough else (None, None)
    animals = len({s.animal for s in (*first, *second)})
    return Comparison(
        question=question,
        first=groups[0],
        second=groups[1],
        animals=animals,
        p_value=p_value,
        odds_low=odds[0],
        odds_high=odds[1],
        words=_words(groups, p_value, animals),
        events=tuple(sorted(s.event for s in (*first, *second))),
    )


def _bad_good(sheds: list[ShedSeen]) -> tuple[int, int]:
    bad = sum(bool(s.went_wrong) for s in sheds)
    return bad, len(sheds) - bad


def _group(name: str, bad: int, total: int) -> Group:
    low, high = figures.wilson_interval(bad, total) if total else (None, None)
    return Group(name, bad, total, low, high)


def _words(groups: tuple[Group, Group], p_value: float | None, animals: int) -> str:
    told = "; ".join(f"{g.name}: {g.bad} of {counted(g.total, 'shed')} went wrong" for g in groups)
    if p_value is None:
        return f"{told}. Not enough sheds yet to tell the two apart."
    if p_value >= LEVEL:
        return f"{told}. No clear difference (p = {p_value:.2g}); that does not show there is none."
    if groups[0].bad * groups[1].total > groups[1].bad * groups[0].total:
        more = groups[0].name
    else:
        more = groups[1].name
    whose = "all of one animal" if animals == 1 else f"of {animals} animals"
    return (
        f"{told}. More went wrong {more} (p = {p_value:.2g}). This is an association, not a cause: "
        f"the sheds are {whose}, and an animal that sheds badly for another reason "
        "counts every time."
    )
