"""How many eggs are left, when they hatch, when they are looked at."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.lineage.eggs.clutch_course import (
    FORGOTTEN_DAYS,
    Eggs,
    Hatch,
    Look,
    hatch_window,
    misfits,
    next_look,
    own_days,
)
from warmside.plugins.lineage.eggs.warmth import warmth_doubts
from warmside.plugins.lineage.season.figures import season_figures

LAID = date(2026, 4, 1)
CORN = season_figures("Pantherophis guttatus")


def day(number: int) -> date:
    return LAID + timedelta(days=number)


def test_eggs_are_left_until_they_hatched_or_went_bad() -> None:
    laid = Eggs(LAID, 8, 6)
    assert (laid.left, misfits(laid)) == (6, 2)
    looked = Eggs(LAID, 8, 6, (Look(day(20), 5),))
    assert looked.left == 5
    assert Eggs(LAID, 8, 6, (Look(day(20), 5),), (Hatch(day(60), 3),)).left == 2
    assert Eggs(LAID, 8, 6, (Look(day(61), 0),), (Hatch(day(60), 3),)).left == 0


def test_a_look_without_a_count_leaves_the_count_as_it_was() -> None:
    assert Eggs(LAID, 8, 6, (Look(day(10), 4), Look(day(20), None))).left == 4


def test_eggs_of_which_no_number_is_known_are_open_until_any_hatched() -> None:
    assert Eggs(LAID, None, None).open(day(60))
    assert not Eggs(LAID, None, None, (), (Hatch(day(60), 1),)).open(day(61))


def test_eggs_that_nobody_told_of_for_long_are_not_awaited() -> None:
    assert Eggs(LAID, 8, 6).open(day(FORGOTTEN_DAYS))
    assert not Eggs(LAID, 8, 6).open(day(FORGOTTEN_DAYS + 1))


def test_the_window_is_a_range_with_its_source() -> None:
    """55 to 65 days among keepers; mean 61, Myhrvold et al. 2015, Ecology 96."""
    found = hatch_window(Eggs(LAID, 8, 6), CORN)
    assert found and (found.earliest, found.latest, found.likely) == (day(55), day(65), day(61))
    assert found.basis.source.text
    assert hatch_window(Eggs(LAID, 8, 6), None) is None


def test_eggs_are_looked_at_after_a_week_and_then_by_the_setting() -> None:
    assert next_look(Eggs(LAID, 8, 6), 7, day(0)) == day(7)
    assert next_look(Eggs(LAID, 8, 6, (Look(day(9), 6),)), 10, day(10)) == day(19)
    assert next_look(Eggs(LAID, 8, 6), 0, day(0)) is None
    assert next_look(Eggs(LAID, 8, 6, (Look(day(9), 0),)), 7, day(10)) is None


def test_own_clutches_tell_how_long_they_took() -> None:
    hatched = [Eggs(LAID, 8, 6, (), (Hatch(day(n + 1), 1), Hatch(day(n), 1))) for n in (61, 58)]
    assert own_days([*hatched, Eggs(LAID, 8, 6), Eggs(None, 8, 6)]) == [58, 61]


def test_an_incubator_that_is_far_too_warm_or_cool_is_asked_about() -> None:
    assert warmth_doubts(28, CORN) == [] == warmth_doubts(None, CORN) == warmth_doubts(50, None)
    assert "34 °C" in warmth_doubts(34, CORN)[0] and warmth_doubts(20, CORN)


@given(st.integers(0, 30), st.lists(st.integers(0, 30), max_size=4), st.integers(0, 10))
def test_never_fewer_than_none_are_left(good: int, looks: list[int], hatched: int) -> None:
    told = tuple(Look(day(n), left) for n, left in enumerate(looks))
    found = Eggs(LAID, 30, good, told, (Hatch(day(50), hatched),))
    assert found.left == max(0, (looks[-1] if looks else good) - hatched)
