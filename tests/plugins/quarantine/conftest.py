"""A keeper with two residents, a quarantine room, and the plugin enabled."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def built_house(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `house` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("house"), plugins=["quarantine"])
    for name, room in (("Shelf", "Main"), ("Corner", "Main"), ("Tub", "Spare"), ("Box", "Spare")):
        keeper.run("enclosure", "add", name, "--room", room)
    keeper.run("enclosure", "add", "Attic", "--room", "Attic")
    for name, place in (("Ember", "SHE"), ("Moss", "COR")):
        keeper.run(
            *("animal", "add", name, "--species", "leopard gecko"),
            *("--enclosure", place, "--since", "2025-01-01"),
        )
    return keeper


@pytest.fixture
def house(built_house: Keeper, tmp_path: Path) -> Keeper:
    """Ember and Moss live in Main; Tub and Box stand in Spare; noon of 5 March 2026 in UTC."""
    return copy_of(built_house, tmp_path)
