"""Cases as they run."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.health.cases.course_of_case import Entry, cases, closes_nothing, recheck

DAY = date(2026, 3, 1)


def entries(closing: list[bool]) -> list[Entry]:
    return [Entry(n, DAY + timedelta(n), c, "calm") for n, c in enumerate(closing)]


@given(st.lists(st.booleans(), max_size=12))
def test_every_entry_is_in_one_case_or_closes_nothing(closing: list[bool]) -> None:
    given_ = entries(closing)
    run = cases(given_)
    inside = [e for c in run for e in c.entries]
    assert sorted([*inside, *closes_nothing(given_)], key=lambda e: e.event) == given_
    assert all(not e.closes for c in run for e in c.entries[:-1])
    assert not any(c.is_open for c in run[:-1])
    assert bool(run and run[-1].is_open) == bool(closing and not closing[-1])


def test_a_recheck_stands_until_a_visit_on_a_later_day() -> None:
    named = Entry(1, DAY, False, "wheezing", recheck=DAY + timedelta(10))
    (case,) = cases([named])
    assert recheck(case, []) == named
    assert recheck(case, [DAY]) == named, "the visit at which it was named"
    assert recheck(case, [DAY + timedelta(7)]) is None, "moved forward"


def test_the_newest_recheck_counts_and_news_without_one_keep_it() -> None:
    named = Entry(1, DAY, False, "wheezing", recheck=DAY + timedelta(10))
    moved = Entry(2, DAY, False, "moved", recheck=DAY + timedelta(14))
    news = Entry(3, DAY + timedelta(1), False, "eats again")
    assert recheck(cases([named, moved, news])[0], []) == moved
    closed = Entry(4, DAY + timedelta(2), True, "well")
    assert recheck(cases([named, closed])[0], []) is None
