"""Days of three numbers are read in the order that was said, and in no other."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.numbered_days import (
    DAY_FIRST,
    MONTH_FIRST,
    OrderUnknown,
    numbered_day,
    parse_order,
)

TODAY = date(2026, 3, 5)
WRITTEN = {DAY_FIRST: "%d{0}%m{0}%Y", MONTH_FIRST: "%m{0}%d{0}%Y"}
"""As strftime of the C standard (ISO/IEC 9899, 7.27.3.5, from memory) writes a day."""

days = st.dates(date(1950, 1, 1), date(2046, 12, 31))


@given(days, st.sampled_from(sorted(WRITTEN)), st.sampled_from("/.-"))
def test_a_day_is_read_as_it_was_written(day: date, order: str, mark: str) -> None:
    text = day.strftime(WRITTEN[order].format(mark))
    assert numbered_day(text, order, TODAY) == day
    assert numbered_day(text[:-4] + text[-2:], order, TODAY) == (
        day if day.year > 1946 else day.replace(year=day.year + 100)
    )


@given(days, st.sampled_from(sorted(WRITTEN)))
def test_without_an_order_only_a_sure_day_is_read(day: date, order: str) -> None:
    text = day.strftime(WRITTEN[order].format("/"))
    if day.day <= 12 and day.day != day.month:
        with pytest.raises(OrderUnknown):
            numbered_day(text, "", TODAY)
    else:
        assert numbered_day(text, "", TODAY) == day


@pytest.mark.parametrize("text", ["2021/4/1", "4/1", "4/1.2021", "412021", "4/1/021"])
def test_what_is_no_such_day_is_left_to_others(text: str) -> None:
    assert numbered_day(text, DAY_FIRST, TODAY) is None


@pytest.mark.parametrize("text", ["31/2/2021", "0/1/2021", "1/13/2021"])
def test_a_day_that_no_calendar_has_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="day first here"):
        numbered_day(text, DAY_FIRST, TODAY)


@pytest.mark.parametrize(("typed", "order"), [("m", MONTH_FIRST), ("Day-first", DAY_FIRST)])
def test_the_order_is_typed_in_short(typed: str, order: str) -> None:
    assert parse_order(typed) == order
