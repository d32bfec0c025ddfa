"""A keeper with three corn snakes, two of them the parents of the third."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def family(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Rust and Fern, and Moss who hatched from them; not to be written to."""
    keeper = new_keeper(tmp_path_factory.mktemp("family"), plugins=["genes"])
    for name, sex in (("Rust", "male"), ("Fern", "female"), ("Moss", "male")):
        keeper.run("animal", "add", name, "--species", "corn snake", "--sex", sex)
    keeper.run("animal", "parents", "Moss", "--dam", "Fern", "--sire", "Rust")
    return keeper


@pytest.fixture
def mine(family: Keeper, tmp_path: Path) -> Keeper:
    """A copy of the family to write in."""
    return copy_of(family, tmp_path)
