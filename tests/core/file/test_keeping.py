"""How long copies are kept: days, then weeks, then months."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.file.copies.keeping import USUAL, Keeping, kept, parse_keeping
from warmside.core.values.errors import BadInput

START = date(2024, 1, 1)


def after(days: int, rule: Keeping, every: int = 1) -> list[date]:
    """The copies that are there after so many days, with a copy every so many."""
    there: set[date] = set()
    for n in range(0, days, every):
        there = kept(there | {START + timedelta(days=n)}, rule)
    return sorted(there)


def test_after_three_years_there_are_days_weeks_and_months() -> None:
    there = after(1096, USUAL)
    last = START + timedelta(days=1095)
    assert there[-14:] == [last - timedelta(days=n) for n in reversed(range(14))]
    assert {d.isocalendar()[:2] for d in there} >= {
        (last - timedelta(weeks=n)).isocalendar()[:2] for n in range(8)
    }
    months = {(d.year, d.month) for d in there}
    assert len(months) == 24 and min(months) == (2025, 1)
    assert len(there) <= 14 + 8 + 24


def test_a_keeper_who_writes_once_a_week_has_as_many_copies() -> None:
    there = after(1096, USUAL, every=7)
    assert len(there) >= 14 and there[0] < START + timedelta(days=400)


def test_the_rule_is_read_as_it_is_written() -> None:
    assert parse_keeping(USUAL.text) == USUAL
    assert parse_keeping("1 day, 0 weeks, 1 month") == Keeping(1, 0, 1)
    for wrong in ("", "all", "0 days, 8 weeks, 24 months", "14 days", "-1 days, 1 weeks, 1 months"):
        with pytest.raises(BadInput):
            parse_keeping(wrong)
    assert after(100, Keeping(2, 0, 0)) == [START + timedelta(days=n) for n in (98, 99)]
