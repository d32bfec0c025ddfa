"""The powders on insects and greens, by days."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.basis import Mark
from warmside.plugins.feeding.prey.dusting import (
    D3,
    VITAMINS,
    DustPlan,
    as_planned,
    dust_plan,
    powder_on,
    powders,
)

START = date(2026, 1, 5)
LEOPARD, CRESTED = "Eublepharis macularius", "Correlophus ciliatus"


def plan_of(latin: str, family: str, stage: str, uvb: bool | None) -> DustPlan:
    found = dust_plan(latin, family, stage, uvb)
    assert found is not None
    return found


def counts(plan: DustPlan, days: int, every: int) -> Counter[str]:
    """The powders of so many days, with a meal every so many."""
    meals = [(START + timedelta(days=d), None) for d in range(0, days, every)]
    return Counter(code for _, code in as_planned(plan, meals))


def test_without_a_record_it_is_the_base() -> None:
    plan = plan_of(LEOPARD, "gecko", "adult", True)
    used = powder_on(plan, [], START)
    assert used and used.code == "calcium"


def test_a_young_leopard_gecko_without_uvb_as_in_the_veterinary_guide() -> None:
    """Maryland Avian & Exotics: D3 4 to 5 times a week, vitamins once (read in part; secondary).

    Fed daily, so D3 stands on the other six days here: a day a week without insects is usual.
    """
    plan = plan_of(LEOPARD, "gecko", "juvenile", False)
    eight_weeks = counts(plan, 56, 1)
    assert eight_weeks[VITAMINS] in (7, 8) and eight_weeks["calcium"] == 0
    assert plan.source.mark is Mark.SECONDARY


def test_a_grown_leopard_gecko_without_uvb_as_in_the_veterinary_guide() -> None:
    """The same guide: D3 at each meal, vitamins every other week."""
    grown = counts(plan_of(LEOPARD, "gecko", "adult", False), 84, 3)
    assert grown[VITAMINS] == pytest.approx(6, abs=1) and grown["calcium"] == 0
    assert grown[D3] == 28 - grown[VITAMINS]


def test_the_days_count_and_not_the_meals() -> None:
    plan = plan_of("Pogona vitticeps", "agama", "adult", True)
    seldom, often = counts(plan, 140, 7), counts(plan, 140, 1)
    assert abs(seldom[D3] - often[D3]) <= 2 and often["calcium"] > seldom["calcium"]


def test_a_chameleon_gets_little_d3() -> None:
    """D3 about once a month in grown ones: from memory, and marked so."""
    plan = plan_of("Chamaeleo calyptratus", "chameleon", "adult", True)
    assert counts(plan, 120, 2)[D3] <= 4 and plan.source.mark is Mark.FROM_MEMORY


def test_nothing_is_planned_for_whole_prey_and_no_vitamins_beside_complete_food() -> None:
    """Over half of the diet a complete food: supplements are contraindicated.

    Stahl & Donoghue, Small Animal Clinical Nutrition 5th ed., ch. 71, 2010.
    """
    assert dust_plan("Python regius", "python", "adult", False) is None
    crested = plan_of(CRESTED, "gecko", "adult", True)
    assert crested.every == () and crested.base.code == "calcium"


def test_unknown_light_is_taken_as_with_it_which_holds_less_d3() -> None:
    unknown = plan_of(LEOPARD, "gecko", "adult", None)
    assert unknown == plan_of(LEOPARD, "gecko", "adult", True)
    without = plan_of(LEOPARD, "gecko", "adult", False)
    assert counts(unknown, 84, 3)[D3] < counts(without, 84, 3)[D3]


def test_a_gravid_one_gets_calcium_at_each_meal() -> None:
    plan = plan_of(LEOPARD, "gecko", "adult", True)
    used = powder_on(plan, [(START, "calcium")], START + timedelta(days=60), calcium=True)
    assert used and used.code == "calcium"


def test_greens_of_a_grown_plant_eater_are_dusted_on_some_days_only() -> None:
    plan = plan_of("Testudo hermanni", "tortoise", "adult", True)
    assert powder_on(plan, [(START, "calcium")], START + timedelta(days=1)) is None
    assert powder_on(plan, [(START, "calcium")], START + timedelta(days=3)) is not None


@given(
    st.sampled_from([(LEOPARD, "gecko"), ("Pogona vitticeps", "agama"), ("", "chameleon")]),
    st.sampled_from(["hatchling", "juvenile", "subadult", "adult"]),
    st.sampled_from([True, False, None]),
    st.integers(1, 7),
)
def test_no_seldom_powder_comes_sooner_than_its_days(
    who: tuple[str, str], stage: str, uvb: bool | None, every: int
) -> None:
    plan = plan_of(*who, stage, uvb)
    meals = [(START + timedelta(days=d), None) for d in range(0, 120, every)]
    used = as_planned(plan, meals)
    for code, days in plan.every:
        on = [d for d, c in used if c == code]
        assert all((b - a).days >= days for a, b in pairwise(on))
        assert len(on) >= 120 // (days + 2 * every) - 2, "nor is it forgotten"


def test_each_powder_has_a_source() -> None:
    assert all(d.source.text for d in powders())
