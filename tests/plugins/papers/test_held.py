"""A document by itself: whether it is needed, how it stands, from when its end is seen to."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from msgspec.structs import replace

from warmside.api import BadInput
from warmside.plugins.papers.documents.held import (
    MOST_YEARS,
    Document,
    Mark,
    check_days,
    notice_from,
)

DAY = date(2026, 3, 5)
PERMIT = Document(1, 7, "permit", "12-3", until=DAY)


def days(number: int) -> date:
    return DAY + timedelta(days=number)


def test_it_holds_through_its_last_day() -> None:
    assert PERMIT.state(days(-1)) == PERMIT.state(DAY) == "holds until 2026-03-05"
    assert PERMIT.state(days(1)) == "ended on 2026-03-05"
    assert replace(PERMIT, until=None).state(days(9999)) == "holds, no end on record"


def test_put_aside_it_is_needed_no_more_from_that_day_on() -> None:
    aside = replace(PERMIT, ended=DAY)
    assert aside.is_needed(days(-1)) and not aside.is_needed(DAY)
    assert aside.state(days(-1)) == "holds until 2026-03-05"
    assert aside.state(DAY) == "put aside on 2026-03-05"


def test_notice_begins_so_many_days_before_its_end_but_not_before_it_was_issued() -> None:
    assert notice_from(PERMIT, 60) == days(-60)
    assert notice_from(replace(PERMIT, issued=days(-100)), 60) == days(-60)
    assert notice_from(replace(PERMIT, issued=days(-10)), 60) == days(-10)
    assert notice_from(replace(PERMIT, until=None), 60) is None


def test_days_that_no_document_has_are_refused_and_their_neighbours_are_not() -> None:
    check_days(DAY, DAY, DAY)
    check_days(None, date(DAY.year + MOST_YEARS, 12, 31), DAY)
    with pytest.raises(BadInput, match="before it began"):
        check_days(DAY, days(-1), DAY)
    with pytest.raises(BadInput, match="which is to come"):
        check_days(days(1), None, DAY)
    with pytest.raises(BadInput, match="years ahead"):
        check_days(None, date(DAY.year + MOST_YEARS + 1, 1, 1), DAY)


def test_a_document_and_a_mark_are_named_by_what_is_known_of_them() -> None:
    assert (PERMIT.name, replace(PERMIT, number="").name) == ("permit 12-3", "permit")
    assert Mark(1, 7, "ring", "A 12").words == "ring A 12"
    assert Mark(1, 7, "ring", "A 12", "left leg").words == "ring A 12, left leg"
