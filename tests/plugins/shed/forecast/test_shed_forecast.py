"""The forecast: its order, its conditioning on elapsed days, its words and its refusals."""

from __future__ import annotations

import math
import subprocess
import sys
from datetime import date

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from warmside.api import BadInput, Mark
from warmside.plugins.shed.forecast.censored import summary
from warmside.plugins.shed.forecast.change import change_of
from warmside.plugins.shed.forecast.forecast import (
    Forecast,
    forecast,
    forecasts,
    on_days,
    predicted,
)
from warmside.plugins.shed.forecast.intervals import Interval, between, exactly
from warmside.plugins.shed.forecast.predictive import before, life_stages, prior_for
from warmside.plugins.shed.forecast.trend import Driver

ADULT = prior_for("adult")
lengths = st.lists(st.floats(3, 300), min_size=2, max_size=12)
elapsed = st.floats(0, 2000)


def bounded(span: tuple[float, float]) -> Interval:
    """An interval of so many days, or of some more."""
    return between(span[0], span[0] + span[1])


several = st.lists(
    st.tuples(st.floats(3, 300), st.just(0.0) | st.floats(0, 200)).map(bounded), max_size=12
)


def ends(f: Forecast) -> list[float]:
    return [f.low_90_days, f.low_50_days, f.median_days, f.high_50_days, f.high_90_days]


def test_the_animals_own_intervals_outweigh_the_prior() -> None:
    own = forecast(exactly([34, 41, 38, 40]), 20, ADULT)
    assert 36 < own.median_days < 42
    assert own.low_90_days > 20
    assert own.high_90_days < 65


def test_the_prior_alone_is_wide() -> None:
    alone = forecast((), 0, ADULT)
    assert alone.median_days == pytest.approx(56)
    assert alone.high_90_days / alone.low_90_days > 6


@pytest.mark.parametrize("stage", life_stages())
def test_every_prior_is_marked_as_custom(stage: str) -> None:
    assert prior_for(stage).source.mark is Mark.COMMON_PRACTICE


def test_the_basis_says_rule_source_and_records() -> None:
    basis = forecast([*exactly([34, 41]), between(30, 50)], 0, ADULT).basis
    assert basis.rule == (
        "log-normal prediction from 3 intervals, 1 of them known only between bounds, "
        "with the adult prior"
    )
    assert basis.source == ADULT.source


def test_the_estimate_is_in_days_since_the_last_shed() -> None:
    f = forecast(exactly([34, 41, 38]), 0, ADULT)
    estimate = f.estimate()
    assert (estimate.value, estimate.low, estimate.high) == (
        f.median_days,
        f.low_90_days,
        f.high_90_days,
    )


def test_overdue_begins_where_the_usual_range_ends() -> None:
    intervals = exactly([34, 41, 38, 40])
    usual_end = forecast(intervals, 0, ADULT).usual_high_days
    assert not forecast(intervals, usual_end - 0.01, ADULT).overdue
    assert forecast(intervals, usual_end + 0.01, ADULT).overdue


def test_elapsed_days_far_beyond_all_intervals_still_give_a_range() -> None:
    f = forecast(exactly([40, 40.001, 40.002]), 36_500)
    assert all(math.isfinite(e) and e >= 36_500 for e in ends(f))


@given(lengths, elapsed, st.booleans())
def test_the_ranges_are_nested_and_never_before_today(
    days: list[float], gone: float, with_prior: bool
) -> None:
    assume(len(set(days)) > 1)
    f = forecast(exactly(days), gone, ADULT if with_prior else None)
    assert ends(f) == sorted(ends(f))
    assert f.low_90_days >= gone


@given(lengths, elapsed, st.floats(0, 300))
def test_waiting_longer_never_brings_the_shed_forward(
    days: list[float], gone: float, more: float
) -> None:
    now = forecast(exactly(days), gone, ADULT)
    later = forecast(exactly(days), gone + more, ADULT)
    for sooner, after in zip(ends(now), ends(later), strict=True):
        assert after >= sooner * (1 - 1e-9)


@given(lengths, st.just(0.0) | st.floats(1e-9, 100), st.floats(0.2, 5))
def test_another_unit_of_time_gives_the_same_forecast(
    days: list[float], gone: float, factor: float
) -> None:
    assume(max(days) > 1.01 * min(days))
    plain = forecast(exactly(days), gone)
    scaled = forecast(exactly([d * factor for d in days]), gone * factor)
    for one, other in zip(ends(plain), ends(scaled), strict=True):
        assert other == pytest.approx(one * factor, rel=1e-7)


def test_equal_intervals_before_a_change_leave_no_spread_and_still_a_forecast() -> None:
    """Without a prior nothing is known but that each took 60 days, and the last ones 30."""
    for days in ([60.0] * 4 + [30.0], [60.0] * 9 + [30.0] * 2):
        assert all(math.isfinite(end) for end in ends(forecast(exactly(days), 5.0)))


@given(lengths, elapsed, st.randoms())
def test_the_order_of_intervals_does_not_matter(
    days: list[float], gone: float, random: object
) -> None:
    """But where it shows a change of rhythm."""
    shuffled = list(days)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assume(not any(change_of(exactly(each), before(ADULT)) for each in (days, shuffled)))
    one, other = forecast(exactly(days), gone, ADULT), forecast(exactly(shuffled), gone, ADULT)
    assert ends(one) == pytest.approx(ends(other), rel=1e-9)


@settings(max_examples=50)
@given(st.lists(st.floats(20, 60), min_size=3, max_size=8), st.floats(10, 60), st.floats(1, 30))
def test_bounds_never_say_more_than_the_interval_itself(
    days: list[float], low: float, width: float
) -> None:
    bounded = summary([*exactly(days), between(low, low + width)], before(ADULT))
    assert len(days) <= bounded.count <= len(days) + 1


def test_very_tight_bounds_act_as_the_exact_interval() -> None:
    exact = forecast(exactly([34, 41, 38, 40]), 10, ADULT)
    tight = forecast([*exactly([34, 41, 38]), between(39.999, 40.001)], 10, ADULT)
    assert ends(tight) == pytest.approx(ends(exact), rel=1e-4)


def test_an_animal_of_bounds_only_still_has_a_forecast() -> None:
    f = forecast([between(30, 50), between(35, 60)], 0, ADULT)
    assert 35 < f.median_days < 56
    assert ends(f) == sorted(ends(f))


def test_bounds_without_news_change_next_to_nothing() -> None:
    without = forecast(exactly([34, 41, 38, 40]), 0, ADULT)
    vague = forecast([*exactly([34, 41, 38, 40]), between(1, 3000)], 0, ADULT)
    assert ends(vague) == pytest.approx(ends(without), rel=1e-3)


def test_growing_intervals_are_followed_where_the_data_show_it() -> None:
    days = [20, 22, 23, 26, 27, 31, 32, 36, 38, 42]
    age = Driver("age", tuple(range(10)), 10)
    with_age, without = (forecast(exactly(days), 0, ADULT, d) for d in ((age,), ()))
    assert with_age.trend is not None
    assert with_age.trend.driver == "age"
    assert with_age.median_days == pytest.approx(45, abs=2)
    assert without.median_days < 32
    assert "changing with age" in with_age.basis.rule


def test_no_trend_is_read_into_even_or_few_intervals() -> None:
    even = Driver("age", tuple(range(10)), 10)
    days = [30, 33, 29, 31, 34, 28, 32, 30, 33, 31]
    assert forecast(exactly(days), 0, ADULT, [even]).trend is None
    few = Driver("age", tuple(range(5)), 5)
    assert forecast(exactly([20, 25, 30, 36, 43]), 0, ADULT, [few]).trend is None


def test_a_trend_is_not_carried_far_beyond_what_was_seen() -> None:
    days = [20, 22, 23, 26, 27, 31, 32, 36, 38, 42]
    far = Driver("meals in 30 days", tuple(range(10)), 40)
    assert forecast(exactly(days), 0, ADULT, [far]).trend is None


def test_a_perfect_line_is_no_error() -> None:
    days = [20 * 1.1**k for k in range(8)]
    age = Driver("age", tuple(range(8)), 8)
    assert ends(forecast(exactly(days), 0, None, [age]))[0] > 0


def test_a_driver_needs_a_value_for_each_interval() -> None:
    with pytest.raises(BadInput, match="age has 2 values for 3 intervals"):
        forecast(exactly([30, 31, 32]), 0, ADULT, [Driver("age", (1, 2), 3)])


def test_without_prior_too_few_intervals_say_how_many_are_needed() -> None:
    with pytest.raises(BadInput, match=r"needs 2 intervals of known length \(3 sheds\).*are 1"):
        forecast(exactly([40]))


def test_without_prior_equal_intervals_have_no_range() -> None:
    with pytest.raises(BadInput, match="all intervals are 40 days"):
        forecast(exactly([40, 40, 40]))


@pytest.mark.parametrize("gone", [-1, math.nan, math.inf, 40_000])
def test_elapsed_days_that_cannot_be_are_refused(gone: float) -> None:
    with pytest.raises(BadInput, match="cannot be"):
        forecast(exactly([30, 40]), gone, ADULT)


def test_an_unknown_life_stage_names_those_there_are() -> None:
    with pytest.raises(BadInput, match=r"no life stage 'egg'.*juvenile, subadult, adult"):
        prior_for("egg")


def test_dates_are_rounded_outward() -> None:
    assert on_days(date(2025, 1, 1), 30.7, 40.2) == (date(2025, 1, 31), date(2025, 2, 11))


def test_dates_of_an_endless_range_end() -> None:
    assert on_days(date(2025, 1, 1), 30, 1e12)[1].year == 2124


def test_a_forecast_loads_no_heavy_library() -> None:
    code = (
        "import sys; sys.path[:0] = sys.argv[1:]\n"
        "import warmside.plugins.shed.forecast.forecast, warmside.plugins.shed.cycles.now\n"
        "import warmside.plugins.shed.cycles.advice\n"
        "print(sorted({'numpy', 'scipy', 'statistics', 'sqlalchemy'} & set(sys.modules)))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, *sys.path], capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "[]"


@settings(max_examples=150, deadline=None)
@given(several, st.data())
def test_the_quick_look_says_overdue_where_the_forecast_does(
    intervals: list[Interval], data: st.DataObject
) -> None:
    """Also within a day of where overdue begins, and where the intervals change with age."""
    ages = Driver("age", tuple(40.0 * n for n in range(len(intervals))), 40.0 * len(intervals))
    drivers = data.draw(st.sampled_from([(), (ages,)]))
    limit = forecast(intervals, 0, ADULT, drivers).usual_high_days
    days = min(limit * data.draw(st.sampled_from([0.3, 0.9, 0.999, 1.001, 1.1, 3.0])), 36_000)
    whole = forecast(intervals, days, ADULT, drivers).overdue
    assert predicted(intervals, ADULT, drivers).is_overdue(days) == whole


def test_the_quick_look_heeds_a_trend() -> None:
    """Intervals that grew shorter: overdue well before their mean."""
    intervals = exactly(round(100 * 0.9**n) for n in range(10))
    age = Driver("age", tuple(float(n) for n in range(10)), 10.0)
    expected = forecast(intervals, 0, ADULT, (age,))
    assert expected.trend is not None
    assert expected.usual_high_days < 50
    assert predicted(intervals, ADULT, (age,)).is_overdue(50)


def test_several_spans_are_each_forecast_as_alone() -> None:
    intervals = (*exactly([34, 41, 38]), between(30, 50))
    assert forecasts(intervals, [35, 20, 35], ADULT) == [
        forecast(intervals, days, ADULT) for days in (35, 20, 35)
    ]
