"""Doubts about weighings at entry and in the history."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import Display
from warmside.plugins.weight.course.series import NONE, Weighings, weighings
from warmside.plugins.weight.slips.at_entry import Known, OtherAnimal, entry_suspicions
from warmside.plugins.weight.slips.in_history import history_suspicions
from warmside.plugins.weight.slips.suspicion import Suspect, slipped_events

DAY = 738_000.0


def _series(*masses: float, every: float = 14.0) -> Weighings:
    return weighings((i, DAY + i * every, mass) for i, mass in enumerate(masses))


STEADY = _series(400, 405, 410, 408)


@pytest.mark.parametrize(
    ("typed", "meant", "why"),
    [
        (4120, 412, "one place"),
        (41.2, 412, "one place"),
        (41_200, 412, "two places"),
        (14.5, 411, "ounces"),
        (11_680, 412, "ounces"),
        (0.412, 412, "kilograms"),
        (0.91, 413, "pounds"),
    ],
)
def test_a_slip_is_suspected_at_entry(typed: float, meant: float, why: str) -> None:
    """With what was probably meant."""
    (found,) = entry_suspicions(typed, DAY + 56, STEADY)
    assert found.kind is Suspect.SLIP
    assert found.meant_g == pytest.approx(meant, rel=0.01)
    assert why in found.words.said(Display.METRIC)


@pytest.mark.parametrize("mass", [330, 412, 520])
def test_an_ordinary_change_is_not_doubted(mass: float) -> None:
    """A meal, a clutch, a month of growth."""
    assert entry_suspicions(mass, DAY + 56, STEADY) == ()


def test_what_a_clutch_takes_is_neither_a_slip_nor_another_animal() -> None:
    """Up to the greatest clutch; without it, and beyond it, the doubt stands."""
    others = [OtherAnimal("BEX", 262)]
    laid = Known(laid=[DAY + 50])
    assert entry_suspicions(260, DAY + 56, STEADY, others, laid) == ()
    (without,) = entry_suspicions(260, DAY + 56, STEADY, others)
    assert without.kind is Suspect.WRONG_ANIMAL
    (beyond,) = entry_suspicions(41, DAY + 56, STEADY, others, laid)
    assert beyond.kind in (Suspect.SLIP, Suspect.FAR)


def test_a_large_meal_is_in_the_gut_and_not_another_animal() -> None:
    """Of 45 % of its mass, three days ago; not of a month ago."""
    others = [OtherAnimal("BEX", 645)]
    meal = Known(meals=[(DAY + 53, 185.0)])
    assert entry_suspicions(640, DAY + 56, STEADY, others, meal) == ()
    old = Known(meals=[(DAY + 20, 185.0)])
    (found,) = entry_suspicions(640, DAY + 56, STEADY, others, old)
    assert found.kind is Suspect.WRONG_ANIMAL


def test_after_a_long_gap_more_is_possible() -> None:
    """A third less after most of a year is another matter than after two weeks."""
    others = [OtherAnimal("BEX", 262)]
    assert entry_suspicions(265, DAY + 56 + 300, STEADY, others) == ()
    assert entry_suspicions(265, DAY + 56, STEADY, others) != ()


def test_fast_growth_goes_on_as_it_did_and_is_no_doubt() -> None:
    """A gecko hatchling that doubled in a month, weighed two weeks late."""
    young = _series(4, 4.6, 5.3, 6.1, 7, 8, every=7)
    assert entry_suspicions(12.2, DAY + 56, young, [OtherAnimal("BEX", 12.1)]) == ()


def test_weighings_on_both_sides_of_a_clutch_are_not_compared() -> None:
    """1030 g before and 560 g after it; without the clutch, one of them is in doubt."""
    those = _series(1000, 1030, 560, 1040)
    assert history_suspicions(those, laid=[DAY + 20, DAY + 40]) == ()
    assert history_suspicions(those) != ()


def test_the_first_weighing_cannot_be_doubted() -> None:
    """Nothing to hold it against, also when all others are later."""
    assert entry_suspicions(4120, DAY, NONE) == ()
    assert entry_suspicions(4120, DAY - 1, STEADY) == ()


def test_a_hatchling_that_grew_tenfold_in_years_is_not_a_slip() -> None:
    """The longer ago, the more it may have grown."""
    assert entry_suspicions(500, DAY + 800, _series(50)) == ()
    assert entry_suspicions(500, DAY + 30, _series(50))[0].kind is Suspect.SLIP


def test_another_animals_weight_is_recognised() -> None:
    """The nearest first; none where nobody weighs so much."""
    others = [OtherAnimal("B", 700), OtherAnimal("C", 712), OtherAnimal("D", 300)]
    (found,) = entry_suspicions(710, DAY + 56, STEADY, others)
    assert found.kind is Suspect.WRONG_ANIMAL
    assert found.animals == ("C", "B")
    assert entry_suspicions(600, DAY + 56, STEADY, others) == ()
    assert entry_suspicions(410, DAY + 56, STEADY, [OtherAnimal("E", 410)]) == ()


def test_two_weights_minutes_apart_that_differ_by_half() -> None:
    """At entry and in the history, with both events; not when hours lie between."""
    minute = 1 / 1440
    (found,) = entry_suspicions(620, DAY + 42 + minute, STEADY)
    assert (found.kind, found.events) == (Suspect.CLOSE_PAIR, (3,))
    assert "within 1 min" in found.words.said(Display.METRIC)
    both = weighings([(7, DAY, 400.0), (8, DAY + minute, 200.0), (9, DAY + 30, 400.0)])
    kinds = {(one.kind, one.events) for one in history_suspicions(both)}
    assert (Suspect.CLOSE_PAIR, (7, 8)) in kinds
    later = weighings([(7, DAY, 400.0), (8, DAY + 0.2, 250.0)])
    assert history_suspicions(later) == ()


@pytest.mark.parametrize("place", range(8))
@pytest.mark.parametrize("factor", [10, 0.1, 28.35, 1 / 28.35])
def test_one_slip_is_found_wherever_it_stands(place: int, factor: float) -> None:
    """The first and the last too, and its neighbours are not blamed."""
    masses = [400.0, 402, 407, 410, 415, 414, 420, 425]
    masses[place] *= factor
    found = history_suspicions(_series(*masses))
    assert [one.events for one in found] == [(place,)]
    assert slipped_events(found) == {place}


@given(
    st.floats(5, 2000),
    st.lists(st.floats(0.97, 1.15), min_size=1, max_size=60),
    st.floats(3, 40),
)
def test_growth_without_slips_is_never_doubted(
    start: float, steps: list[float], every: float
) -> None:
    """Any course whose steps are those of an animal."""
    masses = [start]
    for step in steps:
        masses.append(masses[-1] * step)
    assert history_suspicions(_series(*masses, every=every)) == ()


def test_short_histories_are_not_doubted() -> None:
    """With two weighings nobody knows which is wrong."""
    assert history_suspicions(NONE) == ()
    assert history_suspicions(_series(400)) == ()
    assert history_suspicions(_series(400, 4000)) == ()


def test_a_mass_that_no_slip_explains_is_doubted_all_the_same() -> None:
    """214 for 412: digits were swapped, or the scale was wrong; only where neighbours agree."""
    (found,) = entry_suspicions(214, DAY + 56, STEADY)
    assert (found.kind, found.meant_g) == (Suspect.FAR, None)
    assert entry_suspicions(900, DAY + 28, _series(400, 800)) == ()
    (found,) = history_suspicions(_series(400, 405, 214, 410, 412))
    assert (found.kind, found.events) == (Suspect.FAR, (2,))
    assert history_suspicions(_series(60, 100, 190, 380)) == ()


def test_two_weights_of_a_day_without_times_are_said_to_be_of_one_day() -> None:
    """Not within a minute: nobody knows."""
    (found,) = history_suspicions(
        weighings([(1, DAY, 400), (2, DAY + 14, 405), (3, DAY + 14, 640), (4, DAY + 28, 520)])
    )
    assert found.kind is Suspect.CLOSE_PAIR
    assert "on one day, both without a time" in found.words.said(Display.METRIC)


@pytest.mark.parametrize(("first", "doubted"), [(2.8, []), (1.9, [(0,)])])
def test_the_first_weighing_of_a_hatchling_may_be_far_below_those_that_follow(
    first: float, doubted: list[tuple[int, ...]]
) -> None:
    """From 2.8 g to 5 g in three weeks is growth; from 1.9 g it is none."""
    found = history_suspicions(_series(first, 4.6, 5.9, 6.8))
    assert [one.events for one in found] == doubted
