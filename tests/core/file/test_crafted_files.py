"""A stranger's collection file: what acts by itself is found before anything is opened with it."""

from __future__ import annotations

import os
import sqlite3
import struct
from collections.abc import Mapping
from contextlib import closing
from pathlib import Path

import pytest

from built_once import made_once
from warmside.cli import built_tables
from warmside.testing import Keeper, copy_of, new_keeper

EVERY_ANIMAL = "BEGIN UPDATE animal SET name = 'x'; END"
FOR_EVER = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i FROM n) SELECT i FROM n"
CRAFTED = {
    "trigger": (f"CREATE TRIGGER t AFTER INSERT ON event {EVERY_ANIMAL}", "trigger t on event"),
    "trigger at opening a step": (
        f"CREATE TRIGGER t AFTER INSERT ON step {EVERY_ANIMAL}",
        "trigger t on step",
    ),
    "trigger on a plugin's table": (
        f"CREATE TRIGGER rhythm_t AFTER INSERT ON rhythm_interval {EVERY_ANIMAL}",
        "trigger rhythm_t on rhythm_interval",
    ),
    "trigger on versions": (
        f"CREATE TRIGGER t AFTER UPDATE ON schema_version_core {EVERY_ANIMAL}",
        "trigger t on schema_version_core",
    ),
    "guard that does more": (
        "DROP TRIGGER event_is_append_only; "
        f"CREATE TRIGGER event_is_append_only BEFORE UPDATE OF day ON event {EVERY_ANIMAL}",
        "trigger event_is_append_only on event",
    ),
    "view": ("CREATE VIEW v AS SELECT 1", "view v"),
    "column that is worked out": (
        "ALTER TABLE event ADD COLUMN x AS (hex(zeroblob(200000000)))",
        "table event",
    ),
    "column that is worked out of others": (
        "ALTER TABLE animal ADD COLUMN x AS (name || name)",
        "table animal",
    ),
    "index that fills memory": (
        "CREATE INDEX ix_event_more ON event (length(hex(zeroblob(id * 0 + 200000000))))",
        "index ix_event_more on event",
    ),
    "index of some rows, told by what fills memory": (
        "CREATE INDEX ix_event_more ON event (day) WHERE length(hex/**/(zeroblob(2000000))) > id",
        "index ix_event_more on event",
    ),
    "column of a plugin that fills memory": (
        "ALTER TABLE rhythm_interval ADD COLUMN x AS (\"printf\"('%.*c', 900000000, 'x'))",
        "table rhythm_interval",
    ),
    "table that a module makes up": ("CREATE VIRTUAL TABLE f USING fts5(a)", "table f"),
    "table of a plugin that has another": (
        "CREATE TABLE rhythm_more (id INTEGER PRIMARY KEY); "
        f"CREATE TRIGGER rhythm_more_t BEFORE INSERT ON rhythm_more {EVERY_ANIMAL}",
        "trigger rhythm_more_t on rhythm_more",
    ),
}
LYING_THERE = {
    "table of nobody": ("CREATE TABLE lamps_lamp (id INTEGER)", "table lamps_lamp"),
    "index on a table of nobody": (
        "CREATE TABLE other (id); CREATE INDEX i ON other (id)",
        "index i on other",
    ),
}
NO_COLLECTION = {
    "plugins that are a view": (
        f"DROP TABLE plugin_state; CREATE VIEW plugin_state AS SELECT i AS name FROM ({FOR_EVER})",
        "no record in it",
    ),
    "versions that are a view": (
        f"DROP TABLE schema_version_core; CREATE VIEW schema_version_core AS {FOR_EVER}",
        "no record in it",
    ),
    "plugins that a module makes up": (
        "DROP TABLE plugin_state; CREATE VIRTUAL TABLE plugin_state USING fts5(name, enabled)",
        "no record in it",
    ),
}
WRITERS = (
    ("record", "observed", "EMB", "--what", "calm"),
    ("plugin", "enable", "shed"),
    ("plugin", "disable", "rhythm"),
    ("file", "change", "--units", "imperial"),
    ("undo",),
    ("today",),
)


@pytest.fixture(autouse=True)
def _built_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(built_tables, "make_tables", made_once)


@pytest.fixture(scope="module")
def honest(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("honest"), plugins=["rhythm"])
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


def crafted(honest: Keeper, folder: Path, script: str) -> Keeper:
    """A stranger's file: an honest one, changed with another program."""
    keeper = copy_of(honest, folder, alone=True)
    with closing(sqlite3.connect(keeper.path)) as connection:
        connection.executescript(script)
    return keeper


@pytest.mark.parametrize("name", CRAFTED)
def test_what_no_migration_made_is_named_and_nothing_is_opened(
    honest: Keeper, tmp_path: Path, name: str
) -> None:
    script, told = CRAFTED[name]
    keeper = crafted(honest, tmp_path, script)
    before = keeper.path.read_bytes()
    line = keeper.run(*WRITERS[0], ok=False).complaint(5)
    assert told in line and "file export" in line
    checked = keeper.run("file", "check", "--json", ok=False)
    assert checked.code == 5
    assert told in " ".join(c["problem"] for c in checked.json["checks"])
    assert keeper.path.read_bytes() == before


@pytest.mark.parametrize("name", LYING_THERE)
def test_what_cannot_act_is_named_when_the_file_is_checked(
    honest: Keeper, tmp_path: Path, name: str
) -> None:
    script, told = LYING_THERE[name]
    keeper = crafted(honest, tmp_path, script)
    keeper.run(*WRITERS[0])
    checked = keeper.run("file", "check", "--json", ok=False)
    assert checked.code == 5
    assert told in " ".join(c["problem"] for c in checked.json["checks"])


@pytest.mark.parametrize("name", NO_COLLECTION)
def test_what_only_looks_like_a_collection_is_none(
    honest: Keeper, tmp_path: Path, name: str
) -> None:
    script, told = NO_COLLECTION[name]
    assert told in crafted(honest, tmp_path, script).run("today", ok=False).complaint(5)


@pytest.mark.parametrize("typed", WRITERS, ids=lambda t: " ".join(t[:2]))
def test_no_command_writes_into_such_a_file(
    honest: Keeper, tmp_path: Path, typed: tuple[str, ...]
) -> None:
    keeper = crafted(honest, tmp_path, CRAFTED["trigger at opening a step"][0])
    before = keeper.path.read_bytes()
    keeper.run(*typed, ok=False).complaint(5)
    assert keeper.path.read_bytes() == before


def test_the_rows_of_such_a_file_can_be_taken_over(honest: Keeper, tmp_path: Path) -> None:
    keeper = crafted(honest, tmp_path, CRAFTED["trigger"][0] + "; CREATE TABLE other (id)")
    keeper.run("file", "export", tmp_path / "rows.zip")
    new = Keeper(tmp_path / "new.warmside", keeper.now)
    new.run("file", "import", tmp_path / "rows.zip")
    assert new.run("animal", "list").stdout == honest.run("animal", "list").stdout
    new.run(*WRITERS[0])


def test_a_trigger_that_a_revision_made_is_known_and_remembered(
    honest: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only running the revisions tells, once."""
    script, times = CRAFTED["trigger"][0], []

    def later(path: Path, revisions: Mapping[str, str]) -> frozenset[str]:
        known = made_once(path, revisions)
        with closing(sqlite3.connect(path)) as connection:
            connection.execute(script)
        times.append(path)
        return known

    monkeypatch.setattr(built_tables, "make_tables", later)
    keeper = crafted(honest, tmp_path, script)
    keeper.run("today")
    keeper.run(*WRITERS[0])
    assert len(times) == 1


MAGIC = bytes.fromhex("d9d505f920a163d7")


def naming_journal(keeper: Keeper, victim: Path) -> Path:
    """A journal that SQLite would play back, and then remove the file that it names.

    After "Database File Format", 3 (sqlite.org/fileformat2.html), and pager.c, readSuperJournal.
    """
    pages, name = keeper.path.stat().st_size // 4096, str(victim).encode()
    head = MAGIC + struct.pack(">IIIII", 0, 7, pages, 512, 4096)
    said = name + struct.pack(">II", len(name), sum(name)) + MAGIC
    journal = keeper.path.with_name(f"{keeper.path.name}-journal")
    journal.write_bytes(head.ljust(512, b"\0") + struct.pack(">I", (1 << 30) // 4096 + 1) + said)
    return journal


@pytest.mark.parametrize(
    "typed",
    [
        *WRITERS,
        ("file", "check"),
        ("file", "where"),
        ("file", "backup"),
        ("file", "restore", "--list"),
        ("file", "restore", "--yes"),
        ("file", "recover", "saved.warmside"),
        ("file", "export", "out.zip"),
    ],
    ids=lambda t: " ".join(t[:3]),
)
def test_a_journal_that_names_another_file_removes_nothing(
    honest: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: tuple[str, ...]
) -> None:
    """SQLite would take the keeper's own collection away, and say nothing."""
    keeper = copy_of(honest, tmp_path / "from-a-stranger")
    own = copy_of(honest, tmp_path / "own").path
    keeper.run("file", "backup")
    monkeypatch.chdir(tmp_path)
    journal = naming_journal(keeper, own)
    before = keeper.path.read_bytes()
    done = keeper.run(*typed, ok=False)
    assert own.exists()
    assert "a fault in" not in done.stderr
    if typed[:2] not in {("file", "where"), ("file", "restore"), ("file", "recover")}:
        assert "names another file" in done.complaint(5)
        assert keeper.path.read_bytes() == before and journal.exists()


def test_such_a_journal_does_what_is_said_of_it(honest: Keeper, tmp_path: Path) -> None:
    """Outside check: SQLite itself, where nobody looks at the journal first."""
    keeper, victim = copy_of(honest, tmp_path), tmp_path / "diary.txt"
    victim.write_text("mine")
    naming_journal(keeper, victim)
    with closing(sqlite3.connect(keeper.path)) as connection:
        connection.execute("SELECT count(*) FROM animal").fetchone()
    assert not victim.exists()


@pytest.mark.skipif(os.name != "posix", reason="needs a link")
def test_a_journal_that_is_a_link_is_not_followed(honest: Keeper, tmp_path: Path) -> None:
    keeper = copy_of(honest, tmp_path)
    (tmp_path / "diary.txt").write_text("mine")
    keeper.path.with_name(f"{keeper.path.name}-journal").symlink_to(tmp_path / "diary.txt")
    assert "no plain file" in keeper.run("today", ok=False).complaint(5)
    assert (tmp_path / "diary.txt").read_text() == "mine"


def test_events_in_a_table_with_a_strange_column_can_be_taken_over(
    honest: Keeper, tmp_path: Path
) -> None:
    keeper = crafted(honest, tmp_path, CRAFTED["column that is worked out"][0])
    keeper.run("file", "export", str(tmp_path / "rows.zip"))
    new = Keeper(tmp_path / "new.warmside", keeper.now)
    new.run("file", "import", str(tmp_path / "rows.zip"))
    assert new.json("history")["events"] == honest.json("history")["events"]


def test_no_value_takes_more_than_a_row_may(honest: Keeper, tmp_path: Path) -> None:
    keeper = crafted(honest, tmp_path, "UPDATE animal SET note = hex(zeroblob(10000000))")
    assert "too big" in keeper.run("animal", "show", "EMB", ok=False).complaint(5)
    assert keeper.run("file", "check", ok=False).code == 5
