"""Which results count toward release, by themselves."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest

from warmside.plugins.quarantine.clock.events import Outcome, Resulted, Sampled
from warmside.plugins.quarantine.clock.negatives import Progress, outcomes_by_sample, progress
from warmside.plugins.quarantine.protocol.terms import TestWanted

DAY = date(2026, 3, 5)
WANTED = TestWanted("faecal", "faecal examination", ("flotation",), 2, 14)


def days(number: int) -> date:
    return DAY + timedelta(days=number)


def noon(number: int) -> datetime:
    return datetime.combine(days(number), time(12))


def after(told: dict[int, tuple[str, ...]], taken: dict[int, int]) -> Progress:
    """The test with samples taken on these days after the first, and what each result said."""
    samples = {id: Sampled(id, noon(on), "faecal", "flotation") for id, on in taken.items()}
    results = [
        Resulted(100 + n, noon(30), sample, Outcome(word))
        for n, (sample, word) in enumerate((s, w) for s, words in told.items() for w in words)
    ]
    outcomes = outcomes_by_sample(results, samples)
    return progress(WANTED, samples.values(), outcomes, DAY, days(30))


@pytest.mark.parametrize(
    ("words", "counts"),
    [
        (("negative",), True),
        (("negative", "negative"), True),
        (("negative", "positive"), False),
        (("unclear", "negative"), False),
        (("positive",), False),
        (("unclear",), False),
        ((), False),
    ],
)
def test_a_sample_counts_where_all_that_was_said_of_it_is_negative(
    words: tuple[str, ...], counts: bool
) -> None:
    found = after({1: words}, {1: 0})
    assert [s.id for s in found.counted] == [1] * counts
    assert [s.id for s in found.awaited] == [1] * (not words)


def test_a_result_that_takes_a_negative_back_asks_for_that_sample_anew() -> None:
    both = after({1: ("negative",), 2: ("negative",)}, {1: 0, 2: 14})
    assert both.missing == 0 and both.next_sample is None
    taken_back = after({1: ("negative",), 2: ("negative", "positive")}, {1: 0, 2: 14})
    assert taken_back.missing == 1 and taken_back.next_sample == days(30)
    assert taken_back.possible_since == days(14)


def test_the_next_sample_counts_from_the_spacing_after_the_last_that_counts() -> None:
    found = after({1: ("negative",)}, {1: 20})
    assert (found.possible_since, found.next_sample, found.last_sample) == (
        days(34),
        days(34),
        days(34),
    )
    none = after({}, {})
    assert (none.next_sample, none.last_sample) == (days(30), days(44))
