"""The mass a meal is planned by."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import Species, species_rows
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.planning.mass import grown, mass_now

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
PYTHON = species_rows()["Python regius"]
species = st.sampled_from(list(species_rows().values()))


def weighed(mass_g: float, age: int) -> Weighing:
    return Weighing(DAY - timedelta(days=age), mass_g, event=7)


def test_a_fresh_weight_stands_as_it_is() -> None:
    found = mass_now(weighed(850, 10), DAY, PYTHON, RULES)
    assert (found.mass.low, found.mass.value, found.mass.high) == (850, 850, 850)
    assert found.stage is None and not found.stale, "no stage is made up from the mass alone"
    assert found.mass.basis.events == (7,)
    assert "10 days ago" in found.words(RULES)


def test_a_stale_weight_widens_the_range_and_says_so() -> None:
    found = mass_now(weighed(150, 90), DAY, PYTHON, RULES)
    assert found.stale and found.mass.low < 150 < found.mass.high
    assert "stale" in found.words(RULES) and "weigh it again" in found.words(RULES)
    older = mass_now(weighed(150, 180), DAY, PYTHON, RULES)
    assert older.mass.low < found.mass.low and older.mass.high > found.mass.high


def test_another_plugins_expectation_comes_first() -> None:
    told = Estimate(900.0, 880.0, 920.0, Unit.MASS, Basis("its growth curve"))
    found = mass_now(weighed(850, 40), DAY, PYTHON, RULES, told)
    assert found.mass is told and found.mass.basis.rule == "its growth curve"
    assert found.words(RULES).endswith("reckoned with 880 g to 920 g; weigh it again")


def test_an_old_weight_is_called_stale_also_where_another_plugin_answers() -> None:
    told = Estimate(900.0, 600.0, 1200.0, Unit.MASS, Basis("its growth curve"))
    found = mass_now(weighed(850, 250), DAY, PYTHON, RULES, told)
    assert found.stale and found.mass is told
    said = found.words(RULES)
    assert "600 g to 1.2 kg; weigh it again" in said


def test_an_imperial_collection_reads_pounds() -> None:
    found = mass_now(weighed(850, 10), DAY, PYTHON, RULES)
    assert "weighed 1 lb 14 oz on" in found.words(rules_with({}, Display.IMPERIAL))


def test_without_a_weight_it_says_what_can_be_said() -> None:
    with pytest.raises(BadInput, match="how often it eats can be said"):
        mass_now(None, DAY, PYTHON, RULES)


@pytest.mark.parametrize("mass_g", [0, -1, 600_000])
def test_an_absurd_weight_is_refused(mass_g: float) -> None:
    with pytest.raises(BadInput, match="cannot be right"):
        mass_now(weighed(mass_g, 1), DAY, PYTHON, RULES)


def test_a_ball_python_may_quadruple_in_its_first_year_and_not_more() -> None:
    """Young quadruple their mass in the first year: Ellis & Chappell 1987 (published)."""
    assert grown(50, 52, PYTHON, share=1.0) == pytest.approx(200, rel=0.02)


@given(species, st.floats(1, 5000), st.floats(1, 5000), st.floats(0, 200), st.floats(0, 1))
def test_growth_never_lets_the_lighter_overtake(
    found: Species, a: float, b: float, weeks: float, share: float
) -> None:
    light, heavy = sorted((a, b))
    grown_light, grown_heavy = (grown(m, weeks, found, share) for m in (light, heavy))
    assert light * 0.999999 <= grown_light <= grown_heavy * 1.000001


@given(species, st.floats(1, 5000), st.floats(0, 100), st.floats(0, 100))
def test_growth_in_two_steps_is_growth_in_one(
    found: Species, mass_g: float, first: float, then: float
) -> None:
    twice = grown(grown(mass_g, first, found), then, found)
    assert twice == pytest.approx(grown(mass_g, first + then, found), rel=1e-6)
