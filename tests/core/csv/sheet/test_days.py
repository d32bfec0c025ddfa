"""Days in sheets: the order of day and month is proved by the column, or it is asked."""

from __future__ import annotations

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.csv.sheet.days import DayReader, month_of, order_of
from warmside.core.values.errors import BadInput
from warmside.core.values.numbered_days import DAY_FIRST, MONTH_FIRST

TODAY = date(2026, 3, 5)
DAYS = st.dates(date(2000, 1, 1), TODAY)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("7/4/26", date(2026, 4, 7)),
        ("7.4.26", date(2026, 4, 7)),
        ("3 Nov 2025", date(2025, 11, 3)),
        ("Nov 3rd, 2025", date(2025, 11, 3)),
        ("Mon 3-Nov-25", date(2025, 11, 3)),
        ("Monday, 03/11/2025", date(2025, 11, 3)),
        ("2025-11-03", date(2025, 11, 3)),
        ("7/4/99", date(1999, 4, 7)),
    ],
)
def test_a_day_is_read_however_it_is_written(text: str, day: date) -> None:
    assert DayReader(DAY_FIRST, TODAY).read(text) == (day, None)


def test_a_time_behind_the_day_is_read() -> None:
    assert DayReader(MONTH_FIRST, TODAY).read("7/4/25 8:30 pm") == (date(2025, 7, 4), time(20, 30))


@pytest.mark.parametrize("text", ["soon", "31/2/2025", "4 Nov", "", "99"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        DayReader(DAY_FIRST, TODAY).read(text)


@given(st.lists(DAYS, min_size=1, max_size=8), st.booleans())
def test_the_order_is_right_or_open(days: list[date], day_first: bool) -> None:
    order = DAY_FIRST if day_first else MONTH_FIRST
    form = "%d/%m/%Y" if day_first else "%m/%d/%Y"
    texts = [d.strftime(form) for d in days]
    found = order_of(texts, TODAY)
    if any(d.day != d.month for d in days):
        assert found in (order, "")
    if found:
        assert [DayReader(found, TODAY).read(t)[0] for t in texts] == days


def test_a_date_after_today_shows_the_other_order() -> None:
    assert order_of(["05/03/2026", "03/01/2026"], TODAY) == DAY_FIRST
    assert order_of(["03/05/2026", "04/03/2025"], TODAY) == MONTH_FIRST
    assert order_of(["04/03/2025"], TODAY) == ""


def test_a_heading_names_a_month() -> None:
    assert month_of("March 2026") == month_of("2026-03") == month_of("3/2026") == (3, 2026)
    assert month_of("Mar") == (3, None)
    assert month_of("Ember") is None
