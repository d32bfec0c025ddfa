"""A keeper whose copy of the day is made: what plugins do does not concern it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from warmside.core.file.copies.backup import folder_of
from warmside.testing import Keeper, new_keeper


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper with an empty collection, noon of 5 March 2026 in UTC, and today's copy of it."""
    keeper = new_keeper(tmp_path)
    copies = folder_of(keeper.path)
    copies.mkdir()
    shutil.copy(keeper.path, copies / f"day-{keeper.now:%Y-%m-%d}.warmside")
    return keeper
