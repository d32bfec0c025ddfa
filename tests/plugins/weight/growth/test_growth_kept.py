"""The growth curve that is kept from one run to the next."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from warmside.plugins.weight.course.series import weighings
from warmside.plugins.weight.growth.growth import expected_mass, grow
from warmside.plugins.weight.growth.keeping import from_kept, to_keep
from warmside.plugins.weight.reading import growth as reading
from warmside.testing import Keeper


@given(st.integers(8, 40), st.integers(0, 10_000))
@example(70, 1)  # more weighings than a curve is fitted to
@settings(max_examples=8)
def test_what_was_kept_is_the_curve_that_was_fitted(count: int, seed: int) -> None:
    """Through JSON, as the file holds it; an invented animal with scatter."""
    import json

    rng = random.Random(seed)
    those = weighings(
        (i, 738_000.0 + 20 * i, 500 * (1 - 0.9 * math.exp(-i / 9)) * math.exp(rng.gauss(0, 0.03)))
        for i in range(count)
    )
    grown = grow(those)
    again = from_kept(json.loads(json.dumps(to_keep(grown))), those)
    assert again == grown
    assert expected_mass(again, 738_100.0) == expected_mass(grown, 738_100.0)


@pytest.fixture
def fits(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The number of weighings of each fit that was really made."""
    made: list[int] = []

    def counting(those):  # type: ignore[no-untyped-def]
        made.append(len(those))
        return grow(those)

    monkeypatch.setattr(reading, "grow", counting)
    return made


def test_a_curve_is_fitted_once_until_a_weighing_changes_it(
    weigher: Keeper, fits: list[int]
) -> None:
    """The second run gives the same answer without a fit; a new weighing is fitted at once."""
    first = weigher.json("weight", "growth", "TUP")
    assert weigher.json("weight", "growth", "TUP") == first
    assert len(fits) == 1
    weigher.run("record", "weighed", "TUP=300g")
    after = weigher.json("weight", "growth", "TUP")
    assert after["weighings"] == first["weighings"] + 1
    assert fits == [fits[0], fits[0] + 1]
    weigher.run("undo")
    assert weigher.json("weight", "growth", "TUP") == first


@pytest.mark.parametrize(
    "command",
    [
        ("record", "fed", "TUP", "--item", "rat", "--mass", "30g", "--at", "2026-02-28"),
        ("plugin", "set", "weight", "digestion_days", "6"),
        ("animal", "change", "TUP", "--hatched", "2024-06-11"),
    ],
)
def test_all_that_the_curve_rests_on_drops_it(
    weigher: Keeper, fits: list[int], command: tuple[str, ...]
) -> None:
    """A meal before a weighing, the days of digestion, the day of hatching."""
    weigher.run("weight", "growth", "TUP")
    weigher.run(*command)
    weigher.run("weight", "growth", "TUP")
    assert len(fits) == 2


def test_an_earlier_day_is_fitted_from_what_was_known_then(
    weigher: Keeper, fits: list[int]
) -> None:
    """And leaves what is kept of today alone."""
    now = weigher.json("weight", "growth", "TUP")
    then = weigher.json("weight", "growth", "TUP", "--on", "2025-09-01")
    assert then["last"] < now["last"]
    assert weigher.json("weight", "growth", "TUP") == now
    assert len(fits) == 2
