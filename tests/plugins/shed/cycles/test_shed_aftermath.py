"""What came of each shed, from the sheds and the later looks."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.shed.cycles.aftermath import (
    Aftermath,
    Look,
    followed,
    left_on_in_a_row,
    outcomes,
)

DAY = date(2026, 1, 10)


def shed(days: int = 0, outcome: str = "one piece", *retained: str, event: int = 1) -> Aftermath:
    return Aftermath(DAY + timedelta(days=days), outcome, retained, retained, events=(event,))


def look(days: int, left_on: bool, *where: str, event: int = 9) -> Look:
    return Look(DAY + timedelta(days=days), left_on, where, event)


def test_a_shed_is_to_be_checked_until_somebody_looked_or_said_what_was_left_on() -> None:
    assert shed().to_be_checked
    assert not shed(0, "pieces", "toes").to_be_checked
    (checked,) = followed([shed()], [look(1, False)])
    assert not checked.to_be_checked
    assert checked.events == (1, 9)


def test_of_one_shed_written_twice_what_was_said_counts() -> None:
    (one,) = followed([shed(0, "not said"), shed(1, "one piece", event=2)], [])
    assert one.outcome == "one piece"


def test_a_look_that_finds_all_off_ends_what_is_still_on_but_not_what_was() -> None:
    (found,) = followed([shed(0, "pieces", "spectacle")], [look(3, False)])
    assert found.retained == ("spectacle",)
    assert found.still == ()
    assert found.looked == DAY + timedelta(days=3)


def test_a_look_may_find_skin_that_was_not_noticed_at_the_shed() -> None:
    (found,) = followed([shed()], [look(1, True, "toes")])
    assert found.retained == found.still == ("toes",)


def test_still_on_without_a_place_means_where_it_was_or_somewhere() -> None:
    (same,) = followed([shed(0, "pieces", "tail tip")], [look(1, True)])
    (unnamed,) = followed([shed()], [look(1, True)])
    assert same.still == ("tail tip",)
    assert unnamed.still == ("elsewhere",)


def test_a_look_belongs_to_the_shed_before_it() -> None:
    first, second = followed([shed(0, "pieces", "toes"), shed(40, event=2)], [look(41, False)])
    assert first.still == ("toes",)
    assert second.looked == DAY + timedelta(days=41)


def test_a_look_before_any_shed_is_passed_over() -> None:
    (found,) = followed([shed()], [look(-1, True, "toes")])
    assert found == shed()


def test_sheds_within_days_are_one_shed_that_came_off_in_the_worse_way() -> None:
    (found,) = followed([shed(), shed(2, "pieces", "toes", event=2)], [])
    assert (found.day, found.outcome, found.still) == (DAY, "pieces", ("toes",))
    assert found.events == (1, 2)


def test_sheds_further_apart_are_two() -> None:
    assert len(followed([shed(), shed(4, event=2)], [])) == 2


def test_left_on_in_a_row_counts_back_from_the_last_shed_even_if_it_came_off_later() -> None:
    bad = [shed(0, "pieces", "toes"), shed(40, "pieces", "toes")]
    assert left_on_in_a_row(followed(bad, [look(42, False)])) == 2
    assert left_on_in_a_row(followed([*bad, shed(80)], [])) == 0
    assert left_on_in_a_row(()) == 0


def test_outcomes_for_advice_name_what_is_on_still_and_none_before_a_look() -> None:
    first, second = outcomes(followed([shed(0, "pieces", "toes"), shed(40)], []))
    assert (first.retained, second.outcome) == (("toes",), None)
    (cleaned,) = outcomes(followed([shed(0, "pieces", "toes")], [look(1, False)]))
    assert (cleaned.outcome, cleaned.retained) == ("pieces", ())


@given(
    st.lists(st.integers(0, 200), max_size=8),
    st.lists(st.tuples(st.integers(0, 220), st.booleans()), max_size=8),
)
def test_whatever_is_on_was_left_on_and_no_two_sheds_are_days_apart(
    days: list[int], looks: list[tuple[int, bool]]
) -> None:
    found = followed([shed(d) for d in days], [look(d, on, "toes") for d, on in looks])
    assert all(set(s.still) <= set(s.retained) for s in found)
    gaps = [(b.day - a.day).days for a, b in pairwise(found)]
    assert all(g > 0 for g in gaps)
