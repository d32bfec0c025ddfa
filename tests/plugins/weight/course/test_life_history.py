"""Species means for orientation."""

from __future__ import annotations

import pytest

from warmside.api import Mark
from warmside.plugins.weight.course.checks import Stage
from warmside.plugins.weight.course.life_history import life_histories, life_history, stage_at


def test_every_row_has_a_mass_or_an_age_and_its_source() -> None:
    """All from the CC0 data base."""
    for row in life_histories().values():
        assert "Myhrvold" in row.source.text and "CC0" in row.source.text
        assert row.source.mark is Mark.PUBLISHED
        assert row.adult_g or row.hatchling_g or row.maturity_days


def test_names_are_found_in_any_case() -> None:
    """And an unknown species has no row."""
    found = life_history(" python REGIUS ")
    assert found is not None
    assert (found.adult_g, found.hatchling_g) == (1234.8, 55.0)
    assert life_history("Inventus draco") is None


@pytest.mark.parametrize(
    ("species", "age", "stage"),
    [
        ("Eublepharis macularius", 399.0, Stage.JUVENILE),
        ("Eublepharis macularius", 400.0, Stage.ADULT),
        ("Inventus draco", 729.0, Stage.JUVENILE),
        ("Inventus draco", 730.0, Stage.ADULT),
        ("Inventus draco", None, Stage.UNKNOWN),
    ],
)
def test_the_stage_follows_the_age_of_maturity(
    species: str, age: float | None, stage: Stage
) -> None:
    """The species' own where known."""
    assert stage_at(species, age) is stage
