"""The air before a shed, where the animal then lived."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.shed.causes.air import Air, humidity_before, mistings_before

SHED = date(2026, 3, 1)
HERE, THERE = 1, 2
ALWAYS_HERE = [(SHED - timedelta(days=900), HERE)]


def before(days: int) -> date:
    return SHED - timedelta(days=days)


def air(humidity: dict[int, list[tuple[int, float]]], misted: dict[int, list[int]]) -> Air:
    """Readings and mistings so many days before the shed, by enclosure."""
    return Air(
        {e: sorted((before(d), v) for d, v in r) for e, r in humidity.items()},
        {e: sorted((before(d), 1.0) for d in days) for e, days in misted.items()},
    )


def test_the_middle_reading_of_the_14_days_before_counts() -> None:
    found = air({HERE: [(0, 50), (14, 60), (3, 90), (15, 5), (-1, 5)]}, {})
    assert humidity_before(SHED, ALWAYS_HERE, found) == 60


def test_readings_elsewhere_do_not_count() -> None:
    assert humidity_before(SHED, ALWAYS_HERE, air({THERE: [(1, 50)]}, {})) is None
    assert humidity_before(SHED, [], air({HERE: [(1, 50)]}, {})) is None


def test_an_animal_that_moved_breathed_the_air_of_both_places_in_turn() -> None:
    stays = [(before(900), HERE), (before(5), THERE)]
    readings = air({HERE: [(10, 40), (2, 99)], THERE: [(10, 99), (2, 60)]}, {})
    assert humidity_before(SHED, stays, readings) == 50


def test_mistings_are_counted_where_they_were_ever_noted() -> None:
    assert mistings_before(SHED, ALWAYS_HERE, air({}, {HERE: [1, 2, 200]})) == 2
    assert mistings_before(SHED, ALWAYS_HERE, air({}, {HERE: [200]})) == 0


def test_where_mistings_were_not_noted_none_is_known() -> None:
    assert mistings_before(SHED, ALWAYS_HERE, air({}, {})) is None
    assert mistings_before(SHED, ALWAYS_HERE, air({}, {HERE: [-3]})) is None
    assert mistings_before(SHED, [], air({}, {HERE: [1]})) is None


def test_an_animal_away_from_all_enclosures_has_no_air() -> None:
    stays = [(before(900), HERE), (before(100), None)]
    assert humidity_before(SHED, stays, air({HERE: [(1, 50)]}, {})) is None


@given(st.lists(st.tuples(st.integers(-5, 40), st.floats(0, 100)), max_size=20))
def test_the_window_agrees_with_looking_at_every_reading(readings: list[tuple[int, float]]) -> None:
    from statistics import median

    near = [v for d, v in readings if 0 <= d <= 14]
    expected = median(near) if near else None
    assert humidity_before(SHED, ALWAYS_HERE, air({HERE: readings}, {})) == expected
