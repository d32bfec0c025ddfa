"""A keeper with an animal, and plugins enabled behind the host's back."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.record import sums
from warmside.testing import Keeper, new_keeper


@pytest.fixture(scope="session")
def ember_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `ember` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("ember"))
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


@pytest.fixture
def ember(ember_once: Keeper, tmp_path: Path) -> Keeper:
    """A keeper with an animal in an enclosure."""
    shutil.copytree(ember_once.path.parent, tmp_path, dirs_exist_ok=True)  # with its backups
    return Keeper(tmp_path / ember_once.path.name, ember_once.now)


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
        sums.seal(connection, ["plugin_state"])
