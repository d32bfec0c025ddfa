"""Residents handled after quarantined animals."""

from __future__ import annotations

from datetime import datetime

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.quarantine.contact.handling import Handling, residents_after_quarantined


def handled(animal: str, hour: int, quarantined: bool = False, day: int = 1) -> Handling:
    at = datetime(2026, 3, day, hour)
    return Handling(ord(animal), animal, at, quarantined, day * 100 + hour)


def said(*handlings: Handling) -> list[tuple[str, str]]:
    return [(o.resident.code, o.after.code) for o in residents_after_quarantined(handlings)]


def test_residents_first_is_in_order():
    assert said(handled("R", 8), handled("Q", 9, True)) == []


def test_a_resident_after_a_quarantined_animal_is_named_with_it():
    assert said(handled("Q", 8, True), handled("P", 9, True), handled("R", 10)) == [("R", "P")]


def test_each_resident_is_named_once_a_day():
    day = [handled("Q", 8, True), handled("R", 9), handled("R", 10), handled("S", 11)]
    assert said(*day) == [("R", "Q"), ("S", "Q")]


def test_the_next_day_begins_anew():
    assert said(handled("Q", 20, True), handled("R", 8, day=2)) == []


def test_the_same_moment_is_not_after():
    assert said(handled("Q", 0, True), handled("R", 0)) == []


@given(st.lists(st.tuples(st.integers(0, 23), st.booleans()), max_size=12), st.randoms())
def test_what_is_named_really_came_later_on_the_same_day(day, random):
    handlings = [
        Handling(n, f"A{n}", datetime(2026, 3, 1, hour), quarantined, n)
        for n, (hour, quarantined) in enumerate(day)
    ]
    found = residents_after_quarantined(handlings)
    named = {o.resident.animal_id for o in found}
    for h in handlings:
        late = not h.quarantined and any(q.quarantined and q.at < h.at for q in handlings)
        assert (h.animal_id in named) == late
    assert all(o.after.quarantined and o.after.at < o.resident.at for o in found)
    random.shuffle(handlings)
    assert residents_after_quarantined(handlings) == found
