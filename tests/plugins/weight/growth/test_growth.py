"""The animal's own growth curve."""

from __future__ import annotations

import random
from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.weight.course.series import Weighings, weighings
from warmside.plugins.weight.growth.growth import NOT_ENOUGH, band, expected_mass, grow

DAY = 730_000.0


def _gompertz(day: float, adult: float, middle: float = 400.0, scale: float = 300.0) -> float:
    return adult * exp(-exp(-(day - middle) / scale))


def _grown(
    count: int, span: float, *, adult: float = 1500.0, noise: float = 0.04, seed: int = 1
) -> Weighings:
    rng = random.Random(seed)
    days = [span * i / (count - 1) for i in range(count)]
    return weighings(
        (i, DAY + t, _gompertz(t, adult) * exp(rng.gauss(0, noise))) for i, t in enumerate(days)
    )


@settings(max_examples=15, deadline=None)
@given(st.floats(20, 20_000), st.integers(0, 1000))
def test_the_adult_mass_of_a_whole_course_is_found(adult: float, seed: int) -> None:
    """Within its range, or near it: the range is a 95 % one."""
    found = grow(_grown(30, 2500, adult=adult, seed=seed)).adult
    assert found is not None and found.value is not None
    assert found.low < found.value < found.high
    assert found.value == pytest.approx(adult, rel=0.12)


def test_the_first_months_do_not_tell_the_adult_mass() -> None:
    """It says so, and still tells the near future but not the far one."""
    growth = grow(_grown(12, 200))
    assert growth.adult is None
    assert growth.why_no_adult.text.startswith(NOT_ENOUGH)
    near = expected_mass(growth, DAY + 230)
    assert near is not None
    assert near.low < _gompertz(230, 1500) < near.high
    assert expected_mass(growth, DAY + 301) is None


def test_an_adults_steady_mass_is_expected_and_is_no_growth_curve() -> None:
    """A mass, with a range, but no claim to a size at the end of growth."""
    growth = grow(weighings((i, DAY + 20 * i, 1200.0 + (-1) ** i * 20) for i in range(12)))
    assert growth.adult is None
    found = expected_mass(growth, DAY + 240)
    assert found is not None and found.low < 1200 < found.high


def test_a_slip_and_a_full_stomach_are_set_aside_and_named() -> None:
    """The curve is that of the other weighings."""
    sound = _grown(25, 2000)
    masses = list(sound.masses_g)
    masses[10] *= 10
    masses[15] *= 1.4
    growth = grow(Weighings(sound.events, sound.days, tuple(masses)))
    assert {10, 15} <= set(growth.set_aside)
    assert len(growth.set_aside) <= 4
    assert growth.adult is not None
    assert growth.adult.value == pytest.approx(1500, rel=0.1)
    assert not set(growth.set_aside) & set(growth.adult.basis.events)


def test_the_band_holds_new_weighings_at_its_rate() -> None:
    """Of weighings of the same animal on other days, about 95 % lie inside."""
    inside = total = 0
    for seed in range(25):
        growth = grow(_grown(25, 2000, seed=seed))
        for i, mass in enumerate(_grown(40, 1900, seed=1000 + seed).masses_g):
            found = expected_mass(growth, DAY + 1900 * i / 39)
            if found is not None:
                inside += found.low <= mass <= found.high
                total += 1
    assert 0.90 < inside / total < 0.995


def test_the_band_is_the_expected_mass_on_each_day() -> None:
    """Days out of reach are left out."""
    growth = grow(_grown(12, 200))
    days, middle, low, high = band(growth, [DAY - 10, DAY + 50, DAY + 150, DAY + 900])
    assert days == (DAY + 50, DAY + 150)
    assert all(a < b < c for a, b, c in zip(low, middle, high, strict=True))


def test_too_few_days_say_how_many_are_missing() -> None:
    """Several weighings on one day are one."""
    with pytest.raises(BadInput, match="on 3 days, a growth curve needs 8; weigh on 5 more"):
        grow(weighings((i, DAY + (i % 3) + 0.01 * i, 100.0 + i) for i in range(20)))
    with pytest.raises(BadInput, match="on 0 days"):
        grow(weighings([]))


def test_hundreds_of_weighings_are_thinned() -> None:
    """And the curve is the same."""
    growth = grow(_grown(500, 3000))
    assert len(growth.used) <= 60
    assert growth.adult is not None
    assert growth.adult.value == pytest.approx(1500, rel=0.05)


def _paced(rng: random.Random, days: int) -> tuple[float, Weighings]:
    """A gecko that grows fast and slow by turns: its adult mass, and its weighings."""
    adult, pace, clock, rows = rng.uniform(48, 75), 0.0, 10.0, []
    for day in range(days):
        pace = 0.975 * pace + rng.gauss(0, 0.055)
        clock += max(1 + pace, 0.1)
        if day % 12 == 0:
            mass = adult * exp(-3 * exp(-0.0085 * clock))
            rows.append((day, DAY + day, mass * exp(rng.gauss(0, 0.015))))
    return adult, weighings(rows)


def test_no_adult_mass_is_told_while_it_grows_on() -> None:
    """At five months; with what it still gains."""
    _, those = _paced(random.Random(1), 150)
    grown = grow(those)
    assert grown.adult is None
    assert NOT_ENOUGH in grown.why_no_adult.text


def test_the_adult_mass_that_is_told_holds_though_growth_is_uneven() -> None:
    """Simulated animals near the end of growth: at least 9 of 10 of the ranges."""
    rng = random.Random(7)
    herd = [_paced(rng, 480) for _ in range(20)]
    told = [(adult, found) for adult, those in herd if (found := grow(those).adult) is not None]
    assert len(told) >= 10
    assert sum(found.low <= adult <= found.high for adult, found in told) / len(told) >= 0.9
