"""The rota of powders on insects."""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.feeding.prey.dusting import next_dust, powders, rota

codes = st.sampled_from([None, *(d.code for d in powders())])


def test_the_first_powder_is_plain_calcium() -> None:
    assert next_dust([]).code == "calcium"
    assert next_dust([None, None]).code == "calcium"


def test_twenty_meals_hold_each_powder_as_often_as_it_is_due() -> None:
    counts = Counter(d.code for d in rota(20))
    assert counts["calcium"] > counts["calcium-d3"] >= 3
    assert abs(counts["calcium-d3"] - counts["multivitamin"]) <= 1


def test_a_powder_used_of_late_is_not_due() -> None:
    recent = ["calcium"] * 6 + ["calcium-d3"]
    assert next_dust(recent).code == "multivitamin"
    assert next_dust([*recent, "multivitamin"]).code == "calcium"


@given(st.lists(codes, max_size=30))
def test_a_special_powder_never_comes_before_it_is_due(recent: list[str | None]) -> None:
    dust = next_dust(recent)
    if dust.every > 1:
        assert dust.code not in recent[len(recent) - dust.every + 1 :]


def test_every_powder_has_a_source() -> None:
    assert all(d.source.text for d in powders())
