"""Means of hatchlings for orientation."""

from __future__ import annotations

from warmside.api import Mark
from warmside.plugins.weight.course.life_history import life_histories, life_history


def test_every_row_has_a_mass_and_its_source() -> None:
    """All from the CC0 data base."""
    for row in life_histories().values():
        assert "Myhrvold" in row.source.text and "CC0" in row.source.text
        assert row.source.mark is Mark.PUBLISHED
        assert row.hatchling_g > 0


def test_names_are_found_in_any_case() -> None:
    """And an unknown species has no row."""
    found = life_history(" python REGIUS ")
    assert found is not None
    assert found.hatchling_g == 55.0
    assert life_history("Inventus draco") is None
