"""A plugin's revision makes a series, which then works as any other."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import REAL, Column, Integer, MetaData
from tests.migrations.test_migrations import birch, write_revisions

from warmside.api import series
from warmside.core.file import sqlite
from warmside.core.record.tables import metadata
from warmside.testing import Keeper, throw_away_plugin
from warmside.testing.schema_facts import facts

REVISION = (
    "import sqlalchemy as sa; from warmside.api import series; "
    "series.create(op, 'birch_ring', sa.Column('year', sa.Integer()), "
    "sa.Column('width', sa.REAL(), nullable=False), key=('year',))"
)
DECLARED = MetaData(naming_convention=metadata.naming_convention)
RINGS = series.declare(
    "birch_ring",
    Column("year", Integer),
    Column("width", REAL, nullable=False),
    key=("year",),
    metadata=DECLARED,
)
BOTH = {RINGS.table.name, RINGS.shelf.name}


@pytest.fixture
def grown(keeper: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """A file with a plugin whose first revision makes a series."""
    write_revisions(tmp_path, REVISION)
    monkeypatch.syspath_prepend(str(tmp_path))
    with throw_away_plugin("birch", manifest=birch(1)):
        keeper.run("plugin", "enable", "birch")
    return keeper


def test_the_tables_are_those_declared(grown: Keeper, tmp_path: Path) -> None:
    fresh = sqlite.open_engine(tmp_path / "fresh.warmside")
    DECLARED.create_all(fresh)
    assert facts(sqlite.open_engine(grown.path), BOTH) == facts(fresh, BOTH)


def test_it_is_written_and_taken_back_and_checked(grown: Keeper) -> None:
    with throw_away_plugin("birch", manifest=birch(1)):
        with grown.open().step("measured the rings", grown.now) as writer:
            writer.insert_many(RINGS, ((1900 + n, n / 8) for n in range(100)), on_same="refuse")
        query = "SELECT count(*), max(width) FROM birch_ring"
        for deed, wanted in (("undo", (0, None)), ("redo", (100, 99 / 8))):
            grown.run(deed)
            with grown.book() as book:
                assert book.rows(query) == [wanted]
        grown.run("file", "backup")
        assert "series birch_ring" in [c["what"] for c in grown.json("file", "check")["checks"]]
