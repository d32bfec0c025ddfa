"""A house to type commands in."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Two enclosures in use, one retired, four animals, a few events."""
    keeper = new_keeper(tmp_path_factory.mktemp("house"), plugins=["rhythm"])
    for words in (
        ("enclosure", "add", "Low shelf", "--code", "L1", "--room", "Attic", "--width", "120cm"),
        ("enclosure", "add", "High shelf", "--code", "H1", "--room", "Attic"),
        ("enclosure", "add", "Old tub", "--code", "O1", "--room", "Cellar"),
        ("enclosure", "change", "O1", "--retired"),
        (
            *("animal", "add", "Ember", "--species", "ball python", "--sex", "female"),
            *("--hatched", "2022-06", "--enclosure", "L1", "--since", "2024-01-01"),
        ),
        (
            *("animal", "add", "Moss", "--species", "leopard gecko", "--sex", "male"),
            *("--enclosure", "H1", "--since", "2024-01-01"),
        ),
        ("animal", "add", "Ash", "--species", "ball python", "--ancestor", "--hatched", "2018"),
        ("animal", "add", "Ember", "--species", "leopard gecko", "--code", "EM9"),
        ("record", "weighed", "EMB=1.2kg", "MOS=61g", "--at", "2026-02-01"),
        ("record", "cleaned", "L1", "--extent", "full", "--at", "2026-02-20"),
    ):
        keeper.run(*words)
    return keeper


@pytest.fixture
def mine(house: Keeper, tmp_path: Path) -> Keeper:
    """A copy of the house to write in."""
    return copy_of(house, tmp_path)
