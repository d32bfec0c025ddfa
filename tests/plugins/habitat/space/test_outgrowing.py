"""When an enclosure is outgrown: ranges that hold what any growth within them does."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.habitat.space.growing import Body, Known, Range, body
from warmside.plugins.habitat.space.outgrowing import longest_met, outgrown
from warmside.plugins.habitat.space.rules import Box, Rule
from warmside.plugins.habitat.space.shipped import rules_for


def rule(words: str, scientific: str = "Python regius", group: str = "python") -> Rule:
    return next(r for r in rules_for(scientific, group) if words in r.name)


def test_a_box_of_120_by_80_by_40_cm_is_for_a_snake_of_120_cm() -> None:
    """Animal Welfare Committee 2023, as quoted: length, two thirds, a third."""
    found = longest_met(rule("Animal Welfare Committee"), Box(1200, 800, 400), 1.0, 1)
    assert found == pytest.approx(1200, abs=1)


def test_a_laboratory_minimum_of_2500_cm2_is_for_any_length_beyond_75_cm() -> None:
    """Directive 2010/63/EU, Annex III, table 10.2; and a small one ends at its row's length."""
    laboratory = rule("European Union")
    assert longest_met(laboratory, Box(500, 500, 280), 1.0, 1) == pytest.approx(12_000)
    assert longest_met(laboratory, Box(400, 300, 200), 1.0, 1) == pytest.approx(750, abs=1)
    assert longest_met(laboratory, Box(400, 300, 200), 1.0, 2) == pytest.approx(500, abs=1)
    assert longest_met(laboratory, Box(100, 100, 100), 1.0, 1) is None


def test_length_by_mass_lies_between_the_powers_of_the_families() -> None:
    """Measured at 200 g and 80 cm; at 400 g a leopard gecko's power (3.255) says 99 cm."""
    found = body(Known(((100, 800.0),), then_g=200, now_g=400))
    assert found is not None
    gecko = 800 * 2 ** (1 / 3.255)
    assert found.length.low < gecko < found.length.high
    assert found.per_day is None and found.grown is None


def test_two_lengths_tell_more_than_masses() -> None:
    known = Known(((200, 700.0), (20, 880.0)), now_g=400, before_g=400, before_days=180)
    found = body(known)
    assert found and found.per_day
    assert found.per_day.low < 1.0 < found.per_day.high


def test_never_measured_is_never_guessed() -> None:
    assert body(Known((), now_g=400, before_g=300, before_days=180)) is None


@given(
    st.floats(300, 900),
    st.floats(0.05, 1.5),
    st.floats(1000, 2000),
    st.floats(310, 2500),
    st.floats(0, 1),
)
def test_any_growth_between_the_two_is_within_the_range(
    now: float, per_day: float, grown: float, longest: float, between: float
) -> None:
    """Growth that slows down towards a length between the least and the most of the grown."""
    tall = Range(grown, 1.3 * grown)
    found = outgrown(Body(Range(now, now), Range(per_day, per_day), tall), longest)
    assert found is not None
    ends = tall.low + between * (tall.high - tall.low)
    if longest <= now:
        assert found == type(found)(0.0, 0.0) or now == longest
        return
    if longest >= ends:
        return
    truly = math.log((ends - now) / (ends - longest)) * (ends - now) / per_day
    assert found.earliest is not None and found.earliest <= truly + 1e-6
    assert found.latest is None or truly <= found.latest + 1e-6


def test_one_that_is_grown_never_outgrows_what_holds_it() -> None:
    found = outgrown(Body(Range(900, 950), Range(0.0, 0.0), Range(900, 1000)), 1200)
    assert found is not None and found.earliest is None and found.latest is None
