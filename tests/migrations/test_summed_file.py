"""A file of c0006, which keeps checksums of its steps already, opens with nothing lost."""

from __future__ import annotations

import gzip
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from warmside.migrations import CORE_HEAD
from warmside.testing import Keeper

PACKED = Path(__file__).with_name("summed.warmside.gz")
LATER = datetime(2026, 3, 8, 9, 0, tzinfo=UTC)


@pytest.fixture
def old(tmp_path: Path) -> Keeper:
    """An invented collection with six plugins and 25 steps."""
    path = tmp_path / "old.warmside"
    path.write_bytes(gzip.decompress(PACKED.read_bytes()))
    return Keeper(path, LATER)


def rows(keeper: Keeper, query: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return connection.execute(query).fetchall()


def test_it_opens_and_its_sums_still_hold(old: Keeper) -> None:
    """Steps gained columns since, so that their sums had to be worked out anew."""
    kept = "SELECT id, kind, day, data, note FROM event", "SELECT id, at, kind, words FROM step"
    before = [rows(old, query) for query in kept]
    old.run("today")
    assert rows(old, "SELECT version_num FROM schema_version_core") == [(CORE_HEAD,)]
    assert [rows(old, query) for query in kept] == before
    old.run("file", "check")


def test_what_was_wrong_in_it_before_stays_found(old: Keeper) -> None:
    """A revision is no excuse for words that somebody changed."""
    with closing(sqlite3.connect(old.path)) as connection, connection:
        connection.execute("UPDATE step SET words = 'another' WHERE id = 5")
    old.run("today", ok=False)
    found = old.run("file", "check", ok=False)
    assert found.code == 5 and "5" in found.stdout + found.stderr
