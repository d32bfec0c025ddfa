"""Bringing tables up to date fails at each statement in turn: schema and data are as before."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, event

from warmside import migrations
from warmside.core.file import sqlite
from warmside.core.file.copies import backup
from warmside.core.plugins.discovery import BUILT_IN, manifest_of
from warmside.core.plugins.manifest import BadPlugin
from warmside.core.values.errors import WarmsideError
from warmside.migrations import CORE, Lineage, lineage_of, runner
from warmside.testing import Keeper


class Statements:
    """Counts what is executed, and fails at one of them."""

    def __init__(self, fails_at: int | None) -> None:
        self.fails_at = fails_at
        self.done = 0

    def __call__(self, _connection: Any, _cursor: Any, statement: str, *_: Any) -> None:
        """Called before each statement, but for a question that SQLAlchemy then asks otherwise."""
        self.done += "sqlite_temp_master" not in statement
        if self.done == self.fails_at:
            raise sqlite3.OperationalError("disk I/O error")


@contextmanager
def statements(fails_at: int | None = None) -> Iterator[Statements]:
    """Every statement of the program counts, until the one that fails."""
    counter = Statements(fails_at)
    event.listen(Engine, "before_cursor_execute", counter)
    try:
        yield counter
    finally:
        event.remove(Engine, "before_cursor_execute", counter)


def dump(path: Path) -> list[str]:
    """Schema and rows of a file."""
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return list(connection.iterdump())


def shipped_lineages() -> list[Lineage]:
    """The lineages of the plugins that own tables."""
    found = []
    for name in BUILT_IN:
        try:
            lineage = lineage_of(manifest_of(name))
        except BadPlugin:
            continue
        if lineage is not None:
            found.append(lineage)
    return found


@pytest.mark.parametrize("lineage", shipped_lineages(), ids=lambda x: x.owner)
def test_tables_of_a_plugin_are_made_whole_or_not_at_all(stocked: Keeper, lineage: Lineage) -> None:
    engine, before = sqlite.open_engine(stocked.path), dump(stocked.path)
    copy = stocked.path.read_bytes()
    with statements() as counted:
        runner.upgrade(engine, [lineage])
    after = dump(stocked.path)
    assert counted.done >= 3 and after != before
    stocked.path.write_bytes(copy)
    for number in range(1, counted.done + 1):
        with statements(number), pytest.raises(WarmsideError):
            runner.upgrade(engine, [lineage])
        assert dump(stocked.path) == before, f"statement {number} left something"
    runner.upgrade(engine, [lineage])
    assert dump(stocked.path) == after


def test_a_new_file_is_made_whole_or_not_at_all(tmp_path: Path) -> None:
    keeper = Keeper(tmp_path / "room" / "new.warmside")
    words = ("new", "--name", "Room", "--zone", "Europe/Vienna", "--units", "metric")
    with statements() as counted:
        keeper.run(*words)
    keeper.path.unlink()
    for number in range(1, counted.done + 1):
        with statements(number):
            keeper.run(*words, ok=False).complaint(5)
        assert list(keeper.path.parent.iterdir()) == []
    keeper.run(*words)
    assert keeper.run("file", "check").code == 0


@pytest.fixture
def behind(stocked: Keeper, later_core: Lineage, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """A keeper who has just installed a later version, on the file as the old one left it."""
    for place in ("warmside.migrations.CORE", "warmside.migrations.runner.CORE"):
        monkeypatch.setattr(place, later_core)
    return stocked


def test_an_upgrade_keeps_every_row_and_says_where_the_copy_is(behind: Keeper) -> None:
    before = dump(behind.path)
    result = behind.run("animal", "list")
    (line,) = result.stderr.splitlines()
    (copy,) = backup.folder_of(behind.path).glob("before-update-*")
    assert "brought the tables of core up to date" in line and str(copy) in line
    assert dump(copy) == before
    with closing(sqlite3.connect(behind.path)) as connection:
        assert connection.execute("SELECT name, size FROM animal").fetchall() == [
            ("Ember", "large")
        ]
        assert connection.execute("SELECT count(*) FROM event").fetchone() == (4,)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        guards = connection.execute("SELECT count(*) FROM sqlite_schema WHERE type = 'trigger'")
        assert guards.fetchone() == (4,)
    assert behind.run("animal", "list").stderr == ""
    assert behind.run("file", "check").code == 0


def test_an_upgrade_that_fails_at_any_statement_leaves_the_file_as_it_was(
    behind: Keeper,
) -> None:
    whole = behind.path.read_bytes()
    before, copies = dump(behind.path), backup.all_of(behind.path)
    with statements() as counted:
        runner.upgrade(sqlite.open_engine(behind.path), [migrations.CORE])
    behind.path.write_bytes(whole)
    assert counted.done > 15
    for number in range(1, counted.done + 1):
        with statements(number):
            line = behind.run("today", ok=False).complaint(5)
        assert "nothing was" in line
        assert dump(behind.path) == before, f"statement {number} left something"
        assert backup.all_of(behind.path) == copies, "a copy is left for each failure"
    behind.run("today")
    assert dump(behind.path) != before


def test_a_file_that_the_old_program_must_not_touch_any_more(
    stocked: Keeper, later_core: Lineage
) -> None:
    runner.upgrade(sqlite.open_engine(stocked.path), [later_core])
    before = dump(stocked.path)
    assert "newer version" in stocked.run("record", "weighed", "EMB=410g", ok=False).complaint(5)
    assert dump(stocked.path) == before


def test_a_revision_that_breaks_references_is_undone(
    behind: Keeper, tmp_path: Path, later_core: Lineage
) -> None:
    (tmp_path / "site" / later_core.package / "c9999_size.py").write_text(
        f"from alembic import op\nrevision, down_revision = 'c9999', '{CORE.head}'\n"
        "def upgrade():\n    op.execute('DELETE FROM animal')\n"
    )
    before = dump(behind.path)
    assert "break references" in behind.run("today", ok=False).complaint(5)
    assert dump(behind.path) == before


def test_a_revision_that_does_not_even_import_is_named(
    behind: Keeper, tmp_path: Path, later_core: Lineage
) -> None:
    (tmp_path / "site" / later_core.package / "c9999_size.py").write_text("import no_such_thing\n")
    before = dump(behind.path)
    assert "cannot be brought up to date" in behind.run("today", ok=False).complaint(5)
    assert dump(behind.path) == before
