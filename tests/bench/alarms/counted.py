"""What a replay shows: episodes of findings a year, weeks to the first of a level, coverage."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from tests.bench.alarms.replay import Replayed, by_animal

from warmside.api import Finding, Level


@dataclass(frozen=True, slots=True)
class Episode:
    """A finding that stood from one week to another, without a week between."""

    life: int
    code: str
    level: Level
    first: int
    last: int
    words: str


@dataclass(frozen=True, slots=True)
class Delay:
    """Weeks from the onset to the first finding of a level, and the part of mass lost by then.

    None where none came.
    """

    weeks: float | None
    lost: float | None


def episodes(done: Replayed) -> list[Episode]:
    """Every stretch of weeks in which an animal had a finding of a code at a level."""
    open_: dict[tuple[int, str, Level], Episode] = {}
    found: list[Episode] = []
    for week in done.weeks:
        now: dict[tuple[int, str, Level], Episode] = {}
        for life, mine in by_animal(week).items():
            for one in mine:
                key = (life, one.code, one.level)
                first = open_[key].first if key in open_ else week.on
                now[key] = Episode(life, one.code, one.level, first, week.on, one.words)
        found += [e for key, e in open_.items() if key not in now]
        open_ = now
    return sorted([*found, *open_.values()], key=lambda e: (e.life, e.first, e.code))


def rows_a_round(done: Replayed) -> float:
    """Finding rows in a round, of ten animals; questions about notes are counted apart."""
    rows = sum(not _is_question(f) for week in done.weeks for f in week.findings)
    return 10 * rows / len(done.weeks) / len(done.lives)


def questions_a_year(replays: Sequence[Replayed]) -> float:
    """How often an animal-year a note was asked about that says nothing plainly."""
    asked = sum(_is_question(e) for done in replays for e in episodes(done))
    return asked / sum(map(years, replays))


def _is_question(found: Finding | Episode) -> bool:
    return found.code == "signs.written" and found.level is Level.NOTE


def years(done: Replayed) -> float:
    """Animal-years that were judged."""
    return len(done.lives) * len(done.weeks) * 7 / 365.25


def a_year(replays: Iterable[Replayed], level: Level) -> dict[str, float]:
    """Episodes of a level an animal-year, by scenario."""
    return {scenario: n / span for scenario, (n, span) in number_of(replays, level).items()}


def number_of(replays: Iterable[Replayed], level: Level) -> dict[str, tuple[int, float]]:
    """Episodes of a level, and the animal-years in which they came, by scenario."""
    number: Counter[str] = Counter()
    judged: dict[str, float] = defaultdict(float)
    for done in replays:
        for life in done.lives:
            judged[life.scenario] += years(done) / len(done.lives)
        for one in episodes(done):
            if one.level is level and one.life:
                number[done.lives[one.life - 1].scenario] += 1
    return {scenario: (number[scenario], span) for scenario, span in judged.items()}


def by_code(replays: Iterable[Replayed]) -> Counter[tuple[str, str]]:
    """How many episodes there were of each code and level."""
    return Counter((e.code, e.level.value) for done in replays for e in episodes(done))


def delays(done: Replayed, *levels: Level) -> list[Delay]:
    """For each ill animal, when the first finding of one of the levels came after its onset."""
    found = []
    for number, life in enumerate(done.lives, 1):
        onset = life.onset or 0
        mine = [e for e in episodes(done) if e.life == number and e.level in levels]
        days = [max(e.first, onset) for e in mine if e.last >= onset]
        if days:
            day = min(days)
            found.append(Delay((day - onset) / 7, 1 - life.true_g(day) / life.true_g(onset)))
        else:
            found.append(Delay(None, None))
    return found


def quantile(values: Sequence[float | None], part: float) -> float:
    """The value at that part of the ordered values, those that never came at the end."""
    ordered = sorted(float("inf") if v is None else v for v in values)
    return ordered[min(max(ceil(part * len(ordered)) - 1, 0), len(ordered) - 1)]


def coverage(replays: Iterable[Replayed], scenarios: Sequence[str], horizon: int) -> float:
    """How often the true mass lay within what was expected, so many days after a weighing."""
    inside = [
        g.low <= g.true_g <= g.high
        for done in replays
        for g in done.guesses
        if g.horizon == horizon and done.lives[g.life - 1].scenario in scenarios
    ]
    return sum(inside) / len(inside) if inside else float("nan")
