"""A keeper with the health plugin and two animals (invented)."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def all_of_ill(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `ill` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("ill"), plugins=["health"])
    keeper.run("enclosure", "add", "Shelf")
    for name in ("Ember", "Moss"):
        keeper.run(
            *("animal", "add", name, "--species", "ball python", "--enclosure", "SHE"),
            *("--since", "2026-02-01"),
        )
    return keeper


@pytest.fixture
def ill(all_of_ill: Keeper, tmp_path: Path) -> Keeper:
    """Ember and Moss live in the shelf since 1 February; it is 5 March."""
    return copy_of(all_of_ill, tmp_path)
