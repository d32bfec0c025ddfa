"""Young as they are typed, named and counted."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput, Display
from warmside.plugins.lineage.hatching.brood import (
    brood_of,
    day_doubts,
    eggs_doubts,
    named,
    number_doubts,
)
from warmside.plugins.lineage.hatching.typed import Young, read_young
from warmside.plugins.lineage.season.figures import season_figures

LAID = date(2026, 4, 1)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("54g", Young(54.0)),
        ("54 g female", Young(54.0, "female")),
        ("54g f visual albino", Young(54.0, "female", "visual albino")),
        (
            "54g, male, visual albino, het piebald",
            Young(54.0, "male", "visual albino, het piebald"),
        ),
        ("visual albino", Young(None, "unknown", "visual albino")),
        ("66 % het piebald", Young(None, "unknown", "66 % het piebald")),
        ("66% het piebald", Young(None, "unknown", "66% het piebald")),
        ("1.9g 66 % het piebald", Young(1.9, "unknown", "66 % het piebald")),
        ("Kid: 2,1 g m normal", Young(2.1, "male", "normal", "Kid")),
        ("Kid:", Young(name="Kid")),
        ("2oz", Young(56.69904625)),
        ("", Young()),
    ],
)
def test_what_a_keeper_types_of_a_young(text: str, expected: Young) -> None:
    assert read_young(text, Display.METRIC) == expected


@pytest.mark.parametrize("text", ["0g", "9kg"])
def test_a_mass_that_no_hatchling_has_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="no mass of a hatchling"):
        read_young(text, Display.METRIC)


def test_young_that_are_not_described_are_counted() -> None:
    assert brood_of([Young(5.0)], 3) == [Young(5.0), Young(), Young()]
    assert brood_of([Young(5.0)], None) == [Young(5.0)]


@pytest.mark.parametrize(("described", "count"), [(2, 1), (0, 0), (0, 201), (0, -1)])
def test_counts_that_cannot_be_are_refused(described: int, count: int) -> None:
    with pytest.raises(BadInput):
        brood_of([Young()] * described, count)


@given(st.integers(1, 60), st.sets(st.integers(1, 70)))
def test_each_young_gets_a_code_of_its_own(number: int, taken: set[int]) -> None:
    before = {f"C1-{n}" for n in taken}
    found = list(named([Young()] * number, "Kid", "C1", before))
    codes = [y.code for y in found]
    assert len({*codes}) == number and not before & {*codes}
    assert all(len(y.code) <= 12 and y.name == f"Kid {y.code.rpartition('-')[2]}" for y in found)


def test_names_and_codes_that_were_typed_stay() -> None:
    (kept,) = named([Young(name="Kid", code="KID")], "C1", "C1", ())
    assert (kept.name, kept.code) == ("Kid", "KID")


def test_more_young_than_eggs_are_asked_about_and_far_more_refused() -> None:
    assert list(number_doubts(6, 6)) == [] == list(number_doubts(None, 90))
    assert "two of one egg are rare" in next(number_doubts(6, 7))
    with pytest.raises(BadInput, match="13 young of 6 eggs cannot be"):
        list(number_doubts(6, 13))


def test_young_before_the_eggs_are_refused_and_those_far_too_early_asked_about() -> None:
    figures = season_figures("Pantherophis guttatus")  # 55 days at least
    with pytest.raises(BadInput, match="is before laid"):
        list(day_doubts(LAID, LAID - timedelta(days=1), figures))
    assert list(day_doubts(LAID, LAID + timedelta(days=20), figures))
    assert not list(day_doubts(LAID, LAID + timedelta(days=50), figures))
    assert not list(day_doubts(None, LAID, figures))


def test_a_clutch_of_400_cannot_be_and_a_large_one_is_asked_about() -> None:
    with pytest.raises(BadInput, match="a clutch of 400 cannot be"):
        list(eggs_doubts(400, 14))
    assert list(eggs_doubts(15, 14)) and not list(eggs_doubts(14, 14))
    assert not list(eggs_doubts(60, None))
