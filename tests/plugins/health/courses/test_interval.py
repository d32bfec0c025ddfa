"""How often a dose is given."""

from __future__ import annotations

import pytest

from warmside.api import BadInput
from warmside.plugins.health.courses.interval import hours_of, interval_words


@pytest.mark.parametrize(
    ("typed", "hours", "words"),
    [
        ("12h", 12, "every 12 hours"),
        ("every 8 hours", 8, "every 8 hours"),
        ("twice a day", 12, "every 12 hours"),
        ("3 times a day", 8, "every 8 hours"),
        ("daily", 24, "every day"),
        ("every day", 24, "every day"),
        ("every other day", 48, "every 2 days"),
        ("3 days", 72, "every 3 days"),
        ("2 weeks", 336, "every 14 days"),
        ("once a week", 168, "every 7 days"),
        ("once", 0, "once"),
    ],
)
def test_it_is_read_as_a_prescription_says_it(typed: str, hours: int, words: str) -> None:
    assert hours_of(typed) == hours
    assert interval_words(hours) == words


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0 hours", "there must be time between two doses"),
        ("0 days", "there must be time between two doses"),
        ("1 hour", "too often"),
        ("24 times a day", "too often"),
        ("7 times a day", "no whole number of hours"),
        ("0 times a day", "no whole number of hours"),
        ("3", "cannot be read"),
        ("often", "cannot be read"),
        ("500 days", "too rare"),
    ],
)
def test_what_cannot_be_is_refused_in_a_line(typed: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        hours_of(typed)
