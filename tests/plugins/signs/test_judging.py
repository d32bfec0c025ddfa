"""Readings against what animals need: nothing unsafe is missed, nothing usual is nagged."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.record.species.figures import species_figures
from warmside.plugins.signs.climate.judging import Needs, Reading, judged


def needs(species: str, rests: bool = False) -> Needs:
    f = species_figures(species)
    assert f and f.limits and f.warm and f.night and f.cool
    limits = f.limits
    return Needs(
        (limits.hot_act, limits.hot_emergency),
        (limits.cold_act, limits.cold_emergency),
        limits.touch,
        f.basks,
        (f.warm.low, f.warm.high),
        f.night.low,
        f.cool.high,
        (f.humidity.low, f.humidity.high) if f.humidity else None,
        rests,
    )


@pytest.mark.parametrize(
    ("species", "warm", "cool", "unsafe"),
    [
        ("Correlophus ciliatus", 33.0, None, True),
        ("Correlophus ciliatus", 25.0, 21.0, False),
        ("Python regius", 40.0, None, True),
        ("Python regius", 32.0, 26.0, False),
        ("Python regius", 33.0, 35.0, True),
        ("Python regius", 18.0, None, True),
        ("Pogona vitticeps", 42.0, 25.0, False),  # a basking spot
        ("Pogona vitticeps", 42.0, 38.0, True),  # no place to go
        ("Pogona vitticeps", 58.0, 25.0, True),  # a surface that burns
        ("Uromastyx ornata", 50.0, 30.0, False),
        ("Iguana iguana", 19.0, None, True),
    ],
)
def test_a_reading_beyond_safe_limits_is_unsafe(
    species: str, warm: float, cool: float | None, unsafe: bool
) -> None:
    """Limits: worked out from Bennett et al. 2018, Sci Data 5:180022 (critical limits)."""
    found = judged(Reading(warm, cool, None, False), needs(species))
    assert any(one.unsafe for one in found) is unsafe


def test_a_surface_that_burns_is_told_of_one_that_does_not_bask_too() -> None:
    """Where a cool side leaves room, a warm side is unsafe from the limit of touch on alone."""
    python = needs("Python regius")
    assert not python.basks and python.touch is not None
    burning = Reading(python.touch + 1.5, 26.0, None, True)
    assert judged(burning, python)[0].what == "warm side too hot to touch"
    below = judged(Reading(python.touch + 0.5, 26.0, None, True), python)
    assert all("touch" not in one.what for one in below)


def test_a_planned_rest_is_cold_on_purpose() -> None:
    reading = Reading(10.0, 9.0, None, False)
    assert judged(reading, needs("Lampropeltis getula", rests=True)) == ()
    assert judged(reading, needs("Lampropeltis getula"))[0].what == "warm side too cold"


def test_a_cool_night_is_no_cold_day() -> None:
    night, day = (Reading(21.0, 20.0, None, by_day) for by_day in (False, True))
    assert judged(night, needs("Pantherophis guttatus")) == ()
    assert [o.what for o in judged(day, needs("Pantherophis guttatus"))] == [
        "warm side colder than usual"
    ]


def test_nothing_is_said_where_nothing_is_known() -> None:
    assert judged(Reading(50.0, 40.0, 5.0, True), Needs()) == ()


@settings(max_examples=60)
@given(st.floats(0, 1), st.floats(0, 1), st.floats(0, 1), st.booleans())
def test_usual_readings_are_never_found(a: float, b: float, c: float, by_day: bool) -> None:
    for species in ("Python regius", "Eublepharis macularius", "Testudo hermanni"):
        f = species_figures(species)
        assert f and f.warm and f.cool and f.humidity
        warm = f.warm.low + a * (f.warm.high - f.warm.low)
        cool = f.cool.low + b * (f.cool.high - f.cool.low)
        humid = f.humidity.low + c * (f.humidity.high - f.humidity.low)
        assert judged(Reading(warm, cool, humid, by_day), needs(species)) == ()
