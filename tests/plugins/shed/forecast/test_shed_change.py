"""A change of rhythm and a season without sheds: said, and the ranges hold (simulated sheds)."""

from __future__ import annotations

import math
import random
from datetime import date

from warmside.api import Mark
from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.forecast.change import change_of
from warmside.plugins.shed.forecast.intervals import exactly
from warmside.plugins.shed.forecast.next_shed import NextShed, next_shed
from warmside.plugins.shed.forecast.predictive import before, prior_for
from warmside.plugins.shed.forecast.season import season_without

ADULT = prior_for("adult")
FIRST = date(2019, 4, 1).toordinal()


def _ahead(days: list[int], known: int) -> NextShed:
    """What the first so many sheds said on the day of the last of them."""
    last = date.fromordinal(days[known - 1])
    seen = [Seen(date.fromordinal(d), Stage.SHED, n) for n, d in enumerate(days[:known], 1)]
    found = next_shed(read(seen, last), last, ADULT)
    assert found is not None
    return found


def _held(days: list[int], known: int) -> bool:
    first, last = _ahead(days, known).dates_90
    return first <= date.fromordinal(days[known]) <= last


def _sheds(rng: random.Random, *rhythm: float) -> list[int]:
    days = [FIRST]
    for middle in rhythm:
        days.append(days[-1] + round(middle * math.exp(rng.gauss(0, 0.12))))
    return days


def test_a_change_of_rhythm_is_said() -> None:
    """Once two intervals show it; one alone may be one; a steady animal has none."""
    steady = (60, 62, 58, 61, 59, 63)
    assert change_of(exactly(steady), before(ADULT)) is None
    perhaps = change_of(exactly((*steady, 30)), before(ADULT))
    sure = change_of(exactly((*steady, 30, 32)), before(ADULT))
    assert perhaps is not None and sure is not None
    assert perhaps.words == "the rhythm may have changed, from about 61 to about 30 days"
    assert sure.sure and sure.words.startswith("the rhythm changed, from about 61 to about 32")
    assert (
        "the rhythm changed"
        in _ahead(_sheds(random.Random(1), *[60] * 8, 30, 30), 11).forecast.basis.rule
    )


def test_the_range_widens_with_a_change_and_holds_the_shed_after() -> None:
    """Of 60 animals whose rate doubled, 9 of 10 of the next sheds after one and after two."""
    rng = random.Random(2)
    herd = [_sheds(rng, *[60] * 9, *[30] * 4) for _ in range(60)]
    for known, least in ((10, 0.0), (11, 0.85), (12, 0.85)):
        assert sum(_held(days, known) for days in herd) / 60 >= least
    wide, usual = (_ahead(herd[0], n).dates_90 for n in (11, 10))
    assert (wide[1] - wide[0]) > (usual[1] - usual[0])


def _with_winters(rng: random.Random) -> list[int]:
    """Every two months, none in December to February."""
    days = [FIRST + rng.randrange(60)]
    while days[-1] < FIRST + 5 * 365:
        day = days[-1] + round(60 * math.exp(rng.gauss(0, 0.15)))
        while date.fromordinal(day).month in (12, 1, 2):
            day += rng.randint(1, 30)
        days.append(day)
    return days


def test_a_winter_without_sheds_is_seen_and_its_range_holds() -> None:
    """From the second winter on: 85 of 100 at least, all year."""
    rng = random.Random(4)
    herd = [_with_winters(rng) for _ in range(15)]
    held = [_held(days, n) for days in herd for n in range(11, len(days) - 1)]
    assert sum(held) / len(held) >= 0.85
    ahead = _ahead(herd[0], 20)
    season = season_without(ahead.intervals, ahead.last[1])
    assert season is not None
    assert season.days_within(date(2024, 12, 1), 60) > 50
    assert season.days_within(date(2024, 5, 1), 60) == 0


def test_young_lizards_start_from_their_own_custom() -> None:
    """A gecko from two weeks, another lizard from four, a snake from five; wide all the same."""
    middles = [math.exp(prior_for("juvenile", g).mean_log) for g in ("gecko", "agama", "colubrid")]
    assert [round(m) for m in middles] == [14, 28, 35]
    assert prior_for("adult", "gecko").source.mark is Mark.COMMON_PRACTICE
    assert prior_for("adult") == prior_for("adult", "python")
