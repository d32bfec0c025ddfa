"""A keeper with the rhythm plugin, two enclosures and two animals (invented)."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def all_of_mine(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `mine` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("mine"), plugins=["rhythm"])
    for name in ("Shelf", "Hutch", "Spare"):
        keeper.run("enclosure", "add", name)
    for name, home, day in (("Ember", "SHE", "2026-02-01"), ("Moss", "HUT", "2026-02-20")):
        keeper.run(
            *("animal", "add", name, "--species", "ball python", "--enclosure", home),
            *("--since", day),
        )
    return keeper


@pytest.fixture
def mine(all_of_mine: Keeper, tmp_path: Path) -> Keeper:
    """Ember lives in the shelf since 1 February, Moss in the hutch since the 20th."""
    return copy_of(all_of_mine, tmp_path)
