"""How often the range of the next shed holds: winters without a shed, and a rate that doubles."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence
from datetime import date

from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.forecast.next_shed import next_shed
from warmside.plugins.shed.forecast.predictive import prior_for

FIRST = date(2019, 4, 1).toordinal()
BEFORE = 10
"""Sheds at the old rate, before it doubles."""


def with_winters(rng: random.Random) -> list[int]:
    """Five years of sheds every 45 to 75 days (15 % of spread), none in December to February."""
    every, days = rng.uniform(45, 75), [FIRST + rng.randrange(60)]
    while days[-1] < FIRST + 5 * 365:
        day = days[-1] + round(every * math.exp(rng.gauss(0, 0.15)))
        while date.fromordinal(day).month in (12, 1, 2):
            day += rng.randint(1, 30)
        days.append(day)
    return days


def with_doubling(rng: random.Random) -> list[int]:
    """Sheds every 45 to 75 days (12 % of spread), then twice as often."""
    every, days = rng.uniform(45, 75), [FIRST]
    for n in range(BEFORE + 5):
        middle = every if n < BEFORE else every / 2
        days.append(days[-1] + round(middle * math.exp(rng.gauss(0, 0.12))))
    return days


def held(days: Sequence[int], known: int) -> bool:
    """Whether the 90 % range told on the day of the last known shed holds the next one."""
    last = date.fromordinal(days[known - 1])
    seen = [Seen(date.fromordinal(d), Stage.SHED, n) for n, d in enumerate(days[:known], 1)]
    ahead = next_shed(read(seen, last), last, prior_for("adult"))
    assert ahead is not None
    first, latest = ahead.dates_90
    return first <= date.fromordinal(days[known]) <= latest


def share(found: Iterable[bool]) -> float:
    """The part that held."""
    every = list(found)
    return sum(every) / len(every)


def coverages(seed: int) -> dict[str, float]:
    """The part of next sheds within the 90 % range, by what was simulated."""
    rng = random.Random(f"sheds {seed}")
    winters = [with_winters(rng) for _ in range(40)]
    doubled = [with_doubling(rng) for _ in range(100)]
    return {
        "no shed in winter": share(
            held(days, n) for days in winters for n in range(9, len(days) - 1)
        ),
        "one shed after the rate doubled": share(held(days, BEFORE + 2) for days in doubled),
        "two sheds after the rate doubled": share(held(days, BEFORE + 3) for days in doubled),
    }
