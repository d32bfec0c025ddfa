"""What can still be read of a damaged file, and what copies hold more, makes a new one."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from built_once import made_once
from warmside.cli import built_tables
from warmside.core.file.copies import backup
from warmside.core.file.pages import Pages
from warmside.testing import Keeper, copy_of, new_keeper

LONG = "a long note " * 900  # over several pages


@pytest.fixture(autouse=True)
def _built_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(built_tables, "make_tables", made_once)


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """500 meals and a long note, of which the copy of yesterday has all but the last."""
    keeper = new_keeper(tmp_path_factory.mktemp("full"), plugins=["rhythm"])
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    table = keeper.path.with_name("meals.csv")
    lines = [f"2025-{1 + n % 12:02}-{1 + n % 28:02} 08:{n % 60:02},EMB,mouse" for n in range(500)]
    table.write_text("\n".join(["date,animal,item", *sorted(set(lines))]) + "\n")
    keeper.run("import", table, "--kind", "fed", "--date-format", "YYYY-MM-DD HH:mm")
    keeper.run("record", "observed", "EMB", "--what", "calm", "--note", LONG)
    keeper.pass_days(1)
    keeper.run("record", "weighed", "EMB=410g")
    return keeper


@pytest.fixture
def mine(full: Keeper, tmp_path: Path) -> Keeper:
    keeper = copy_of(full, tmp_path)
    for copy in backup.all_of(full.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    return keeper


def rows(path: Path, table: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(f'SELECT * FROM "{table}" ORDER BY 1').fetchall()


def root_of(path: Path, name: str) -> int:
    with closing(sqlite3.connect(path)) as connection:
        query = "SELECT rootpage FROM sqlite_schema WHERE name = ?"
        return int(connection.execute(query, (name,)).fetchone()[0])


@pytest.mark.parametrize("table", ["event", "species", "animal", "step", "change"])
def test_our_own_reading_gives_what_sqlite_gives(full: Keeper, table: str) -> None:
    """Outside check: SQLite itself, over interior pages and overflowing rows."""
    pages = Pages(full.path.read_bytes())
    found = {r.rowid: r.values for r in pages.rows(root_of(full.path, table))}
    wanted = {r[0]: r for r in rows(full.path, table)}
    assert found.keys() == wanted.keys()
    for rowid, values in found.items():
        given = (rowid, *values[1:])
        assert given == wanted[rowid][: len(given)]


def test_a_file_without_its_first_page_is_recovered_whole(mine: Keeper) -> None:
    wanted = rows(mine.path, "event")
    with mine.path.open("r+b") as file:
        file.write(b"\xff" * 4096)
    said = mine.run("file", "recover", mine.path.with_name("saved.warmside"))
    assert "made" in said.stdout and "0 rows were missing" in said.stdout
    saved = Keeper(mine.path.with_name("saved.warmside"), mine.now)
    assert [r[:8] for r in rows(saved.path, "event")] == [r[:8] for r in wanted]
    assert saved.json("file", "check")["ok"] is True
    saved.run("record", "weighed", "EMB=412g")


def test_lost_pages_are_filled_from_copies_and_what_is_missing_is_listed(mine: Keeper) -> None:
    """Random pages are overwritten; what was recorded since the copy is in none."""
    before = {r[0] for r in rows(mine.path, "event")}
    content = bytearray(mine.path.read_bytes())
    draw = random.Random(4)
    for page in draw.sample(range(2, len(content) // 4096), 12):
        content[page * 4096 : (page + 1) * 4096] = draw.randbytes(4096)
    mine.path.write_bytes(content)
    told = mine.json("file", "recover", mine.path.with_name("saved.warmside"))
    saved = Keeper(mine.path.with_name("saved.warmside"), mine.now)
    after = {r[0] for r in rows(saved.path, "event")}
    assert len(before - after) <= 1
    assert sum(r["from_copies"] for r in told["recovered"]) > 0
    assert saved.run("animal", "list").stdout.count("Ember") == 1
    assert saved.run("file", "check", ok=False).code in (0, 5)


def test_a_changed_event_comes_from_the_copy(mine: Keeper) -> None:
    with closing(sqlite3.connect(mine.path)) as connection, connection:
        connection.execute("DROP TRIGGER event_is_append_only")
        connection.execute("UPDATE event SET data = replace(data, 'mouse', 'house') WHERE id = 9")
    mine.run("file", "recover", mine.path.with_name("saved.warmside"))
    texts = str(rows(mine.path.with_name("saved.warmside"), "event"))
    assert "house" not in texts


def test_nothing_is_overwritten_and_nothing_to_go_by_is_said(mine: Keeper, tmp_path: Path) -> None:
    line = mine.run("file", "recover", mine.path, ok=False).complaint(4)
    assert "is there already" in line
    for copy in backup.all_of(mine.path):
        copy.unlink()
    mine.path.write_bytes(b"\xff" * 100_000)
    line = mine.run("file", "recover", tmp_path / "saved.warmside", ok=False).complaint(5)
    assert "says how its tables are made" in line
    assert not (tmp_path / "saved.warmside").exists()
