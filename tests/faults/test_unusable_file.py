"""A collection file that is not one, not whole, or not of this version."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.file.copies import backup
from warmside.core.record import sums
from warmside.testing import Keeper

COMMANDS = {
    "today": ("today",),
    "history": ("history", "--json"),
    "record": ("record", "weighed", "EMB=410g"),
    "check": ("file", "check"),
    "backup": ("file", "backup"),
    "export": ("file", "export", "out.zip"),
}
PAGE = 4096


def not_a_collection(path: Path) -> None:
    """Another program's file."""
    path.write_bytes(b"code,name\nEMB,Ember\n" * 50)


def another_database(path: Path) -> None:
    """SQLite, but not ours."""
    path.unlink()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE animal (id INTEGER PRIMARY KEY)")


def zero_bytes(path: Path) -> None:
    """What a full disk or a broken copy leaves behind."""
    path.write_bytes(b"")


def truncated(path: Path) -> None:
    """A copy that was broken off."""
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])


def short_header(path: Path) -> None:
    """A copy that was broken off at once."""
    path.write_bytes(path.read_bytes()[:60])


def damaged_schema(path: Path) -> None:
    """A first page whose list of tables is overwritten."""
    whole = bytearray(path.read_bytes())
    whole[100:PAGE] = b"\x5a" * (PAGE - 100)
    path.write_bytes(bytes(whole))


def emptied_schema(path: Path) -> None:
    """Our mark, and no tables."""
    with closing(sqlite3.connect(path)) as connection:
        mark = connection.execute("PRAGMA application_id").fetchone()[0]
    path.unlink()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA application_id = {mark}")
        connection.execute("CREATE TABLE leftover (id INTEGER)")
        connection.commit()


def newer_core(path: Path) -> None:
    """A file that a later version has brought up to date."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE schema_version_core SET version_num = 'c9999'")
        connection.commit()


BROKEN: list[Callable[[Path], None]] = [
    not_a_collection,
    another_database,
    zero_bytes,
    truncated,
    short_header,
    damaged_schema,
    emptied_schema,
]


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("spoil", BROKEN)
def test_a_broken_file_is_named_and_left_alone(
    stocked: Keeper, monkeypatch: pytest.MonkeyPatch, spoil: Callable[[Path], None], command: str
) -> None:
    monkeypatch.chdir(stocked.path.parent)
    spoil(stocked.path)
    before = stocked.path.read_bytes()
    line = stocked.run(*COMMANDS[command], ok=False).complaint(5)
    assert str(stocked.path) in line
    assert "restore" in line or "name another" in line
    assert stocked.path.read_bytes() == before
    assert not Path("out.zip").exists()


@pytest.mark.parametrize("spoil", BROKEN)
def test_restore_brings_the_last_backup_and_keeps_the_broken_file(
    stocked: Keeper, spoil: Callable[[Path], None]
) -> None:
    told = stocked.json("history")
    spoil(stocked.path)
    broken = stocked.path.read_bytes()
    stocked.run("file", "restore", "--yes")
    assert stocked.json("history") == told
    assert stocked.run("file", "check").code == 0
    kept = list(backup.folder_of(stocked.path).glob("replaced-*.kept"))
    assert len(kept) == 1
    assert kept[0].read_bytes() == broken or _says_the_same(kept[0], broken)


def _says_the_same(kept: Path, broken: bytes) -> bool:
    """A file that SQLite can read is kept as SQLite copies it."""
    other = kept.with_name("broken")
    other.write_bytes(broken)
    dumps = []
    for path in (kept, other):
        with closing(sqlite3.connect(path)) as connection:
            dumps.append("\n".join(connection.iterdump()))
    return dumps[0] == dumps[1]


@pytest.mark.parametrize("command", COMMANDS)
def test_a_newer_file_is_not_touched(
    stocked: Keeper, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.chdir(stocked.path.parent)
    newer_core(stocked.path)
    before = stocked.path.read_bytes()
    result = stocked.run(*COMMANDS[command], ok=False)
    if command in ("backup", "export"):  # a copy of what one cannot read is still a copy
        assert result.code == 0
    else:
        line = result.complaint(5)
        assert "newer version" in line and "install" in line
    assert stocked.path.read_bytes() == before
    assert not [p for p in backup.all_of(stocked.path) if "update" in p.name]


def test_tables_of_a_newer_plugin_cost_only_that_plugin(stocked: Keeper) -> None:
    stocked.run("plugin", "enable", "rhythm")
    with closing(sqlite3.connect(stocked.path)) as connection:
        connection.execute("UPDATE schema_version_rhythm SET version_num = 'rhythm9999'")
        sums.seal(connection, ["schema_version_rhythm"])
        connection.commit()
    before = stocked.path.read_bytes()
    result = stocked.run("today")
    assert "plugin rhythm failed in loading" in result.stderr
    assert "newer version" in result.stderr and len(result.stderr.splitlines()) == 1
    assert stocked.path.read_bytes() == before
    assert not [p for p in backup.all_of(stocked.path) if "update" in p.name]
    stocked.run("record", "weighed", "EMB=410g")


def pages_of(path: Path, index: str) -> int:
    """The page on which an index begins."""
    with closing(sqlite3.connect(path)) as connection:
        query = "SELECT rootpage FROM sqlite_schema WHERE name = ?"
        return int(connection.execute(query, (index,)).fetchone()[0])


def test_a_page_that_a_plugin_finds_damaged_is_not_the_plugins_fault(stocked: Keeper) -> None:
    stocked.run("plugin", "enable", "rhythm")
    stocked.run("rhythm", "set", "weighed", "--every", "1")
    page = pages_of(stocked.path, "rhythm_interval")
    with stocked.path.open("r+b") as file:
        file.seek((page - 1) * PAGE)
        file.write(os.urandom(PAGE))
    assert "damaged" in stocked.run("today", ok=False).complaint(5)


def test_a_damaged_page_is_found_by_check_and_by_who_reads_it(stocked: Keeper) -> None:
    page = pages_of(stocked.path, "event")
    with stocked.path.open("r+b") as file:
        file.seek((page - 1) * PAGE)
        file.write(os.urandom(PAGE))
    assert "damaged" in stocked.run("history", ok=False).complaint(5)
    assert "damaged" in stocked.run("file", "backup", ok=False).complaint(5)
    assert "damaged" in stocked.run("file", "export", "x.zip", ok=False).complaint(5)
    assert stocked.run("file", "check", ok=False).code == 5
    assert stocked.run("file", "where").code == 0
    stocked.run("file", "restore", "--yes")
    assert stocked.run("file", "check").code == 0


def test_a_damaged_index_is_found_by_check_and_stops_the_backups(stocked: Keeper) -> None:
    page = pages_of(stocked.path, "ix_event_day")
    with stocked.path.open("r+b") as file:
        file.seek((page - 1) * PAGE + 8)
        file.write(b"\x00" * 60)
    checked = stocked.run("file", "check", ok=False)
    assert checked.code == 5 and "Traceback" not in checked.stderr
    old = backup.all_of(stocked.path)
    stocked.pass_days(1)
    told = stocked.run("record", "observed", "EMB", "--what", "calm", ok=False).stderr
    note, complaint = told.splitlines()  # what the check found, and what this command met
    assert "needs attention" in note and "damaged" in complaint
    assert backup.all_of(stocked.path) == old, "a damaged file pushed a good backup out"


def test_a_folder_in_the_place_of_the_file_is_named(stocked: Keeper) -> None:
    stocked.path.unlink()
    stocked.path.mkdir()
    for arguments in COMMANDS.values():
        assert str(stocked.path) in stocked.run(*arguments, ok=False).complaint(5)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no such files")
def test_a_pipe_in_the_place_of_the_file_is_not_waited_for(stocked: Keeper) -> None:
    stocked.path.unlink()
    os.mkfifo(stocked.path)
    assert "is not a collection" in stocked.run("today", ok=False).complaint(5)


def test_restoring_from_what_is_no_backup_changes_nothing(stocked: Keeper) -> None:
    before = stocked.path.read_bytes()
    for spoil in BROKEN:
        source = stocked.path.with_name(f"{spoil.__name__}.warmside")
        source.write_bytes(before)
        spoil(source)
        assert str(source) in stocked.run(
            "file", "restore", str(source), "--yes", ok=False
        ).complaint(5)
    assert stocked.path.read_bytes() == before


def test_an_archive_that_is_broken_off_makes_no_file(stocked: Keeper) -> None:
    archive = stocked.path.with_name("all.zip")
    stocked.run("file", "export", str(archive))
    whole = archive.read_bytes()
    new = Keeper(stocked.path.with_name("new.warmside"), stocked.now)
    for size in (0, 10, len(whole) // 2, len(whole) - 1):
        archive.write_bytes(whole[:size])
        new.run("file", "import", str(archive), ok=False).complaint(2)
        assert not new.path.exists()
    archive.write_bytes(whole)
    new.run("file", "import", str(archive))
    assert new.json("history") == stocked.json("history")
