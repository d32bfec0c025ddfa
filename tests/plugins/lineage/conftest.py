"""A family of corn snakes, the last one inbred."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def family(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern and Rust, their young Moss and Fleck, and Fleck's young by Moss; not written to."""
    keeper = new_keeper(tmp_path_factory.mktemp("kin"), plugins=["lineage"])
    for name, sex in (("Fern", "female"), ("Rust", "male"), ("Moss", "male"), ("Fleck", "female")):
        keeper.run("animal", "add", name, "--species", "corn snake", "--sex", sex)
    keeper.run("animal", "add", "Dot", "--species", "corn snake")
    for young, dam, sire in (
        ("Moss", "Fern", "Rust"),
        ("Fleck", "Fern", "Rust"),
        ("Dot", "Fleck", "Moss"),
    ):
        keeper.run("animal", "parents", young, "--dam", dam, "--sire", sire)
    return keeper


@pytest.fixture
def mine(family: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(family, tmp_path)
