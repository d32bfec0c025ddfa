"""A keeper with an animal, and plugins enabled behind the host's back."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing

import pytest

from warmside.testing import Keeper


@pytest.fixture
def ember(keeper: Keeper) -> Keeper:
    """A keeper with an animal in an enclosure."""
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


@pytest.fixture
def enable_by_hand() -> Callable[..., None]:
    """Enables plugins that could not, or need not, be enabled by command."""
    return _enable_by_hand


def _enable_by_hand(keeper: Keeper, *names: str) -> None:
    """Note plugins as enabled that could not, or need not, be enabled by command."""
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.executemany(
            "INSERT INTO plugin_state (name, enabled, distribution, version, settings) "
            "VALUES (?, 1, '', '', '{}')",
            [(n,) for n in names],
        )
