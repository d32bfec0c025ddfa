"""Readings drawn together, against NumPy's own and by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.habitat.gradient.swing import swing
from warmside.plugins.habitat.gradient.targets import Wanted, target
from warmside.plugins.habitat.gradient.zones import Target, summary
from warmside.plugins.habitat.logs.probes import Measure

HOUR = 3600
DAY = [0]
LIGHTS = (8.0, 20.0)


def test_day_and_night_and_what_is_outside() -> None:
    """Hourly readings: 32 from 8 to 20 o'clock, else 22; the span is 28 to 31, at night from 20."""
    at = np.arange(25) * HOUR
    values = np.where((at >= 8 * HOUR) & (at < 20 * HOUR), 32.0, 22.0)
    found = summary(at, values, [0, 86400], LIGHTS, Target((28.0, 31.0), (23.0, 31.0)))
    assert found.day and found.night and found.outside
    assert (found.day.middle, found.night.middle, found.night_drop) == (32.0, 22.0, 10.0)
    assert (found.whole.low, found.whole.high, found.whole.readings) == (22.0, 32.0, 25)
    assert found.covered == 24
    assert (found.outside.hours_over, found.outside.over) == (12, 12)
    assert (found.outside.hours_under, found.outside.under) == (12, 12)


def test_a_gap_counts_for_nothing() -> None:
    at = np.array([0, 300, 600, 900, 900 + 5 * HOUR, 1200 + 5 * HOUR])
    found = summary(at, np.full(6, 30.0), DAY, LIGHTS, Target((20.0, 25.0), (20.0, 25.0)))
    assert (found.gaps.number, found.gaps.hours, found.gaps.longest) == (1, 5, 5)
    assert found.covered == pytest.approx(1200 / HOUR)
    assert found.outside and found.outside.hours_over == pytest.approx(1200 / HOUR)


def test_lights_over_midnight_and_a_single_reading() -> None:
    found = summary(np.array([23 * HOUR]), np.array([30.0]), DAY, (20.0, 8.0))
    assert found.day and not found.night and found.night_drop is None
    with pytest.raises(ValueError, match="needs readings"):
        summary(np.array([], dtype=int), np.array([]), DAY, LIGHTS)


@given(st.lists(st.floats(-10, 60), min_size=1, max_size=60))
def test_the_spread_is_numpys(values: list[float]) -> None:
    at, masses = np.arange(len(values)) * 60, np.array(values)
    found = summary(at, masses, DAY, (0.0, 24.0), Target((10.0, 30.0), None))
    assert found.whole.middle == pytest.approx(float(np.median(masses)))
    assert found.outside and found.outside.hours_over <= found.covered + 1e-9
    assert found.night is None


def test_a_thermostat_that_swings() -> None:
    """A triangle of 2 degrees in cycles of 40 minutes, read each minute, with noise."""
    minutes = np.arange(600)
    triangle = 30 + np.abs(minutes % 40 - 20) / 10 - 1
    noise = np.random.default_rng(1).normal(0, 0.05, 600)
    points = list(zip((minutes * 60).tolist(), (triangle + noise).tolist(), strict=True))
    found = swing(points)
    assert found and found.height == pytest.approx(2.0, abs=0.2)
    assert found.minutes == pytest.approx(40, abs=2)
    assert swing([(at, 30 + n) for (at, _), n in zip(points, noise, strict=True)]) is None


def test_day_and_night_are_no_swing_of_a_thermostat() -> None:
    """Two days of half hours, warm by day: a cycle of a day, with a probe's noise."""
    hours = np.arange(0, 96, 0.5)
    air = 28 + 4 * np.sin(hours / 24 * 2 * np.pi) + np.where(hours % 6 < 3, 0.5, -0.5)
    assert swing(list(zip((hours * 3600).tolist(), air.tolist(), strict=True))) is None


def test_the_span_of_a_zone() -> None:
    wanted = Wanted((28.0, 32.0), (22.0, 25.0), 18.0, (40.0, 60.0), (2.9, 7.4))
    assert target("Warm side", Measure.AIR, wanted) == Target((28.0, 32.0), (18.0, 32.0))
    assert target("cool hide", Measure.AIR, wanted) == Target((22.0, 25.0), (18.0, 25.0))
    assert target("branch", Measure.AIR, wanted) == Target((22.0, 32.0), (18.0, 32.0))
    assert target("branch", Measure.HUMIDITY, wanted) == Target((40.0, 60.0), (40.0, 60.0))
    assert target("stone", Measure.UV, wanted) == Target((2.9, 7.4), None)
    assert target("branch", Measure.AIR, Wanted(warm=(28.0, 32.0))) is None
