"""The pace of growth before a weighing and since it."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.api import LifeStage
from warmside.plugins.weight.course.pace import SLOWING, Paces, paces, slowing_of
from warmside.plugins.weight.course.series import weighings
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.course.stall import stall_sign

DAY = 738_000.0
COURSES = st.lists(st.tuples(st.integers(2, 30), st.floats(-0.05, 0.12)), min_size=5, max_size=16)


@settings(max_examples=40, deadline=None)
@given(COURSES, st.sampled_from((0.001, SLOWING, 0.008)), st.data())
def test_the_paces_are_those_of_weighted_least_squares(
    course: list[tuple[int, float]], slowing: float, data: st.DataObject
) -> None:
    """Slopes against numpy's solution of the same normal equations (NumPy, linalg.solve)."""
    days, logs = np.cumsum([d for d, _ in course]), np.cumsum([g for _, g in course])
    masses = [float(50 * math.exp(y)) for y in logs]
    those = weighings(
        (i, DAY + float(d), m) for i, (d, m) in enumerate(zip(days, masses, strict=True))
    )
    start = data.draw(st.integers(2, len(course) - 2))
    first, away = max(start - 12, 0), days - days[start]
    place = -np.expm1(-slowing * away) / slowing
    sides = np.stack([np.ones_like(place), np.minimum(place, 0), np.maximum(place, 0)], axis=1)
    weights = np.exp(np.minimum(away, 0) / 45)[first:]
    sides, y = sides[first:], np.log(masses)[first:]
    drawn = np.diag([0, (math.hypot(0.015, 0.013) / 0.02) ** 2, 0])
    _, before, since = np.linalg.solve(sides.T * weights @ sides + drawn, sides.T * weights @ y)
    found = paces(those, start, slowing)
    assert found.before == pytest.approx(before, abs=1e-7)
    assert found.since == pytest.approx(since, abs=1e-7)
    assert found.days == pytest.approx(place[-1])


def grown(rng: random.Random, days: list[int], stops: float, slowing: float) -> Course:
    """A course of Gompertz up to a day, then level, with noise of 2 %; all invented."""
    at = [min(day, stops) for day in days]
    logs = [4 * -math.exp(-slowing * day) + rng.gauss(0, 0.02) for day in at]
    rows = (
        (i, DAY + d, 500 * math.exp(y)) for i, (d, y) in enumerate(zip(days, logs, strict=True))
    )
    return Course(weighings(rows), LifeStage.JUVENILE, slowing=slowing)


@pytest.mark.parametrize(("slowing", "every"), [(0.0028, 14), (0.008, 10)])
def test_of_a_herd_those_that_stop_are_told_of_and_those_that_grow_are_not(
    slowing: float, every: int
) -> None:
    """80 that grow on and 40 that stop on day 160, judged at every weighing of seven weeks."""
    rng, days = random.Random(7), list(range(60, 210, every))
    healthy = [grown(rng, days, math.inf, slowing) for _ in range(80)]
    stopped = [grown(rng, days, 160, slowing) for _ in range(40)]
    assert sum(map(_told, healthy)) <= 2
    assert sum(map(_told, stopped)) >= 36


def _told(course: Course) -> bool:
    """Whether a weighing after day 160 gave the sign."""
    those = course.weighings
    ends = [n for n, day in enumerate(those.days, 1) if day - DAY > 160]
    return any(stall_sign(Course(those[:n], course.stage, slowing=course.slowing)) for n in ends)


def test_a_share_of_the_pace_and_what_is_unsure_of_it() -> None:
    """Half of 1 % a day against nothing since: further short the surer both are."""
    sure, unsure = (Paces(0.01, 0.0, 30.0, v, v, 0.0) for v in (1e-8, 1e-4))
    assert sure.expected == pytest.approx(0.3)
    assert sure.short_of(0.5) > unsure.short_of(0.5) > 0 > unsure.short_of(-0.5)


def test_growth_slows_as_the_age_of_an_adult_says() -> None:
    """Of both sexes where either is possible; as a corn snake where nothing is known."""
    assert slowing_of([365.0]) == pytest.approx(3 / 365)
    assert slowing_of([1000.0, 2000.0, None]) == pytest.approx(3 / 1500)
    assert slowing_of([]) == slowing_of([None]) == SLOWING
