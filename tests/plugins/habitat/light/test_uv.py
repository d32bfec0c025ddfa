"""The measured UV index against a zone of exposure."""

from __future__ import annotations

import pytest

from warmside.plugins.habitat.light.uv import basking_span, judged


@pytest.mark.parametrize(
    ("index", "said"),
    [(9.0, "above"), (8.0, "within"), (3.0, "within"), (2.6, "within"), (2.0, "below")],
)
def test_an_index_is_held_against_zone_three(index: float, said: str) -> None:
    """2.9 to 7.4 at the most (Ferguson et al. 2010, as two later texts quote it), 15 % for a meter
    (common practice, no source)."""
    assert basking_span((3, 3)) == (2.9, 7.4)
    assert judged(basking_span((3, 3)), index) == said


def test_less_than_half_of_the_least_is_far_too_little() -> None:
    assert judged((2.9, 7.4), 1.4) == "far below"
    assert judged((2.9, 7.4), 0.0) == "far below"
