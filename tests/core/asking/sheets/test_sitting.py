"""Which tasks are a sitter's: nothing is asked twice, nothing that can wait, nothing is lost."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.asking.rounds.round import FIRST, Stop
from warmside.core.asking.sheets.sitting import is_keepers, sitting, to_thaw
from warmside.core.plugins.hook_values import Task
from warmside.core.values.about import About
from warmside.core.values.basis import Basis

DAY = date(2026, 3, 6)
RULE = Basis("a rule of the test")


def stop(due: int = 0, enclosure: int = 1, **more: Any) -> Stop:
    return Stop("alder", Task("do it", on(due), RULE, About(1), **more), enclosure, "", FIRST)


def on(day: int) -> date:
    return DAY + timedelta(days=day)


@pytest.mark.parametrize(
    ("task", "keepers"),
    [
        (stop(settles="watered"), False),
        (stop(settles="weighed"), True),
        (stop(keepers=True), True),
        (stop(may=True), True),
        (stop(settles="fed"), True),  # of a meal nobody knows what it is
        (stop(settles="fed", data={"item": "mouse"}), False),
        (stop(settles="fed", data={"item": "mouse"}, by=on(9)), False),
        (stop(settles="fed", data={"item": "mouse"}, by=on(11)), True),
    ],
)
def test_what_waits_for_the_keeper(task: Stop, keepers: bool) -> None:
    assert is_keepers(task, on(0), on(10)) is keepers


@given(
    st.lists(st.tuples(st.integers(-5, 20), st.integers(0, 12), st.integers(1, 3)), max_size=8),
    st.integers(0, 5),
    st.integers(0, 9),
)
def test_each_turn_within_the_days_is_the_sitters_or_the_keepers(
    times: list[tuple[int, int, int]], first: int, more: int
) -> None:
    each = [[(on(day), stop(day, place, by=on(day + slack)))] for day, slack, place in times]
    found = sitting(each, on(first), on(first + more), {1, 2})
    days = [day for day, _, place in times if first <= day <= first + more and place < 3]
    assert sorted(t.day for t in (*found.turns, *found.waiting)) == sorted(map(on, days))
    assert [t.day for t in found.turns] == sorted(t.day for t in found.turns)
    assert all(t.stop.last_day <= on(first + more) for t in found.turns if t.stop.last_day)


def test_thawing_adds_up_what_is_fed_on_the_day() -> None:
    mouse = {"item": "adult mouse", "form": "thawed", "count": 2}
    insect = {"item": "cricket", "form": "insect", "count": 9}
    fed = [stop(settles="fed", data=data) for data in (mouse, mouse, insect)]
    found = sitting([[(on(1), f)] for f in fed], on(0), on(3))
    assert to_thaw(found.turns, on(1)) == {"adult mouse": 4}
    assert to_thaw(found.turns, on(2)) == {}
