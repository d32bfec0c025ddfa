"""A collection with something to lose."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, new_keeper


@pytest.fixture
def stocked(tmp_path: Path) -> Keeper:
    """A keeper with an enclosure, an animal weighed on three days, and a backup of all that."""
    keeper = new_keeper(tmp_path)
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    for days in (3, 2, 1):
        keeper.run("record", "weighed", f"EMB={400 + days}g", "--at", f"{days} days ago")
    keeper.run("file", "backup")
    return keeper
