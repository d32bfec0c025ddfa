"""A small piece of the herd in tests/bench: healthy animals are left alone, ill ones are found.

All of it, with its assumptions and bars: python -m tests.bench.bench_alarms
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.bench.alarms import replay
from tests.bench.alarms.counted import delays, episodes, quantile
from tests.bench.bench_alarms import HEALTHY, ILL, collection

from warmside.api import Level

SOON = (Level.LOOK_SOON, Level.ACT_NOW)


@pytest.fixture(autouse=True)
def _of_weight_alone(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(replay, "PLUGINS", ("weight",))


def test_ten_healthy_animals_are_hardly_nagged() -> None:
    """A year of one of each kind: at most 3 look-soons, and no act now."""
    found = episodes(collection(HEALTHY, 11, 0))
    assert [e.words for e in found if e.level is Level.ACT_NOW] == []
    assert len([e for e in found if e.level is Level.LOOK_SOON]) <= 3


@pytest.mark.parametrize(
    ("name", "weeks"),
    [("loses 2 % a week, eating", 6.5), ("hatchling snake stops growing", 7)],
)
def test_an_ill_animal_is_soon_spoken_of(name: str, weeks: float) -> None:
    """The middle of five animals, and all of them in the end."""
    found = [d.weeks for d in delays(collection([ILL[name]] * 5, 11, 0), *SOON)]
    assert quantile(found, 0.5) <= weeks
    assert None not in found
