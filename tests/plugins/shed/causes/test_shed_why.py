"""Outcome of sheds against humidity and misting across a collection."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.shed.causes.exact import Counts, fisher, least_possible, odds_interval
from warmside.plugins.shed.causes.why import (
    ShedSeen,
    by_humidity,
    by_misting,
    middle_before,
    times_before,
    went_wrong,
)

few = st.integers(0, 9)
tables = st.builds(Counts, few, few, few, few)


def sheds(bad: int, good: int, humidity: float, animal: int = 0) -> list[ShedSeen]:
    return [
        ShedSeen(animal or k % 4 + 1, k < bad, humidity_percent=humidity, event=k)
        for k in range(bad + good)
    ]


def test_a_clear_difference_is_told_with_counts_and_as_association() -> None:
    found = by_humidity([*sheds(9, 3, 40), *sheds(1, 14, 70)], 60)
    assert (found.first.bad, found.first.total) == (9, 12)
    assert (found.second.bad, found.second.total) == (1, 15)
    assert found.p_value is not None
    assert found.p_value < 0.01
    assert found.odds_low is not None
    assert found.odds_low > 1
    assert "More went wrong below 60 % humidity" in found.words
    assert "an association, not a cause" in found.words
    assert "4 animals" in found.words


def test_a_difference_the_other_way_is_named_so() -> None:
    found = by_humidity([*sheds(1, 14, 40), *sheds(9, 3, 70)], 60)
    assert "More went wrong at 60 % humidity or more" in found.words


def test_all_sheds_of_one_animal_are_said_to_be() -> None:
    found = by_humidity([*sheds(9, 3, 40, animal=7), *sheds(1, 14, 70, animal=7)], 60)
    assert "all of one animal" in found.words


def test_too_few_sheds_say_so_and_give_no_p() -> None:
    found = by_humidity([*sheds(2, 0, 40), *sheds(0, 2, 70)], 60)
    assert found.p_value is None
    assert found.odds_high is None
    assert "Not enough sheds yet" in found.words


def test_no_sheds_at_all() -> None:
    found = by_humidity([], 60)
    assert (found.first.total, found.first.low) == (0, None)
    assert "Not enough sheds yet" in found.words


def test_no_clear_difference_is_not_called_none() -> None:
    found = by_humidity([*sheds(4, 8, 40), *sheds(4, 9, 70)], 60)
    assert "does not show there is none" in found.words


def test_sheds_without_a_reading_are_left_out() -> None:
    found = by_humidity([ShedSeen(1, True), *sheds(2, 3, 40)], 60)
    assert found.first.total == 5


def test_misting_parts_by_times() -> None:
    seen = [ShedSeen(1, True, mistings=0), ShedSeen(1, False, mistings=3), ShedSeen(2, True)]
    assert (by_misting(seen).first.total, by_misting(seen).second.total) == (1, 1)
    assert by_misting(seen, 4).second.total == 0
    assert by_misting(seen, 4).second.name == "misted 4 times or more"


@pytest.mark.parametrize("percent", [0, 100, -5, float("nan")])
def test_a_humidity_that_parts_nothing_is_refused(percent: float) -> None:
    with pytest.raises(BadInput, match="parts no humidities"):
        by_humidity([], percent)


def test_no_mistings_part_nothing() -> None:
    with pytest.raises(BadInput, match="0 mistings"):
        by_misting([], 0)


def test_only_readings_in_the_days_before_count() -> None:
    day = date(2025, 6, 20)
    readings = [(date(2025, 6, 1), 10.0), (date(2025, 6, 6), 50.0), (day, 60.0)]
    readings.append((date(2025, 6, 21), 99.0))
    assert middle_before(day, readings) == 55.0
    assert middle_before(date(2024, 1, 1), readings) is None
    assert times_before(day, [d for d, _ in readings]) == 2


def test_pieces_and_retained_skin_count_as_gone_wrong() -> None:
    assert went_wrong("pieces", ())
    assert went_wrong("one piece", ("tail tip",))
    assert not went_wrong("one piece", ())
    assert not went_wrong("eaten", ())
    assert went_wrong("not said", ("toes",))


def test_a_shed_of_which_nobody_told_is_neither_good_nor_bad() -> None:
    assert went_wrong("not said", ()) is None
    untold = [ShedSeen(1, None, humidity_percent=40, mistings=0, event=n) for n in range(9)]
    known = sheds(2, 3, 40)
    assert by_humidity([*known, *untold], 60) == by_humidity(known, 60)
    assert by_misting(untold).first.total == 0


@given(tables)
def test_p_is_a_chance_and_the_same_with_groups_swapped(counts: Counts) -> None:
    swapped = Counts(counts.second_bad, counts.second_good, counts.first_bad, counts.first_good)
    assert 0 < fisher(counts) <= 1
    assert fisher(swapped) == pytest.approx(fisher(counts), rel=1e-9)


@given(tables)
def test_no_table_goes_below_the_least_possible_p(counts: Counts) -> None:
    assert least_possible(counts) <= fisher(counts) * (1 + 1e-9)


@given(tables)
def test_the_odds_interval_holds_the_odds_seen(counts: Counts) -> None:
    low, high = odds_interval(counts)
    assert low <= high
    if counts.first_good and counts.second_bad:
        seen = counts.first_bad * counts.second_good / (counts.first_good * counts.second_bad)
        assert low <= seen <= high
