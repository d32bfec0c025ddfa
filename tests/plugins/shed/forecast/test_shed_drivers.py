"""Age and meals as drivers, and the prior by the life stage."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from scipy import stats

from warmside.api import Display, Staged
from warmside.core.record.species.figures import species_figures
from warmside.core.record.species.life_stage import Life
from warmside.core.record.species.staged import staged
from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.forecast.drivers import drivers
from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.life_stage import prior_stage, stage_rule
from warmside.plugins.shed.forecast.next_shed import next_shed
from warmside.plugins.shed.forecast.predictive import prior_for
from warmside.plugins.shed.forecast.trend import NEEDS, SHOWN_BELOW, SHOWN_FROM

HATCHED = date(2023, 1, 1)


def intervals(count: int, gap: int = 40) -> tuple[Interval, ...]:
    return tuple(Interval(gap, gap, HATCHED + timedelta(days=100 + gap * n)) for n in range(count))


def test_age_is_that_at_the_beginning_of_each_interval() -> None:
    last = HATCHED + timedelta(days=420)
    (age,) = drivers(intervals(8), last, HATCHED, ())
    assert age.name == "age"
    assert age.values == tuple(float(100 + 40 * n) for n in range(8))
    assert age.now == 420


def test_too_few_intervals_or_an_unknown_age_give_no_driver() -> None:
    last = HATCHED + timedelta(days=420)
    assert drivers(intervals(7), last, HATCHED, ()) == ()
    assert drivers(intervals(8), last, None, ()) == ()


def test_meals_are_counted_in_the_60_days_before_an_interval() -> None:
    meals = [HATCHED + timedelta(days=d) for d in range(0, 420, 10)]
    last = HATCHED + timedelta(days=420)
    (found,) = drivers(intervals(8), last, None, meals)
    assert found.name == "meals"
    assert set(found.values) == {6.0}
    assert found.now == 6


def test_meals_recorded_too_late_are_no_driver() -> None:
    meals = [HATCHED + timedelta(days=d) for d in range(60, 420, 10)]
    assert drivers(intervals(8), HATCHED + timedelta(days=420), None, meals) == ()


def test_a_growing_animal_is_forecast_by_its_age() -> None:
    days, seen = HATCHED + timedelta(days=30), []
    for n in range(14):
        seen.append(Seen(days, Stage.SHED, n + 1))
        days += timedelta(days=round(22 * 1.07**n) + (-1) ** n)
    today = seen[-1].day
    found = next_shed(read(seen, today), today, prior_for("subadult"), HATCHED)
    plain = next_shed(read(seen, today), today, prior_for("subadult"))
    assert found is not None
    assert plain is not None
    assert found.forecast.trend is not None
    assert found.forecast.trend.driver == "age"
    assert found.forecast.median_days > plain.forecast.median_days


@pytest.mark.parametrize(
    ("days", "stage"),
    [(60.0, "juvenile"), (300.0, "juvenile"), (800.0, "subadult"), (3000.0, "adult")],
)
def test_the_prior_is_that_of_the_life_stage(days: float, stage: str) -> None:
    assert prior_stage(corn_snake((days, days))) == stage


def test_where_the_stage_is_open_the_oldest_counts_and_that_is_said() -> None:
    """Longer intervals, so that no shed is called late too soon."""
    assert prior_stage(corn_snake((300.0, 800.0))) == "subadult"
    unknown = corn_snake((0.0, None))
    assert prior_stage(unknown) == "adult"
    assert stage_rule(unknown).rule.endswith("so read as adult")


def corn_snake(age: tuple[float, float | None]) -> Staged:
    figures = species_figures("Pantherophis guttatus")
    assert figures
    limits = (("female", figures.stages["female"]),)
    return staged(Life(figures.scientific, figures.form, limits, age, None, Display.METRIC))


@pytest.mark.parametrize("intervals", [NEEDS, 20, 100, 10_000])
def test_no_slope_that_could_be_shown_is_passed_over_by_its_t(intervals: int) -> None:
    """Against the t distribution of SciPy."""
    assert 2 * stats.t.sf(SHOWN_FROM, intervals - 2) >= SHOWN_BELOW
