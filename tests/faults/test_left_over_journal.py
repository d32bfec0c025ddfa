"""A journal that a killed program left beside the file: rolled back, by whoever comes first.

Every command that reads or writes must be able to do that, or one power cut locks the keeper out.
"""

from __future__ import annotations

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.file.copies import backup
from warmside.testing import Keeper

if os.name != "posix":
    pytest.skip("needs SIGKILL", allow_module_level=True)

DIE_WRITING = """
import os, signal, sqlite3, sys
c = sqlite3.connect(sys.argv[1], isolation_level=None)
c.execute("PRAGMA cache_size = 1")  # pages go to the file before the commit
c.execute("BEGIN IMMEDIATE")
c.execute("PRAGMA user_version = 1")  # the first page comes first, and is in the journal
c.execute("UPDATE animal SET name = 'half written'")
c.execute("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 300) "
    "INSERT INTO step (at, kind, words) SELECT '2026', 'do', hex(randomblob(1000)) FROM n")
os.kill(os.getpid(), signal.SIGKILL)
"""
COMMANDS = (
    ("today",),
    ("animal", "list"),
    ("record", "weighed", "EMB=410g"),
    ("undo",),
    ("file", "check"),
    ("file", "backup"),
    ("file", "backup", "copy.warmside"),
    ("file", "export", "out.zip"),
    ("file", "restore", "--yes"),
    ("plugin", "enable", "rhythm"),
)


@pytest.fixture
def hot(stocked: Keeper) -> Keeper:
    """The keeper after the power went off in the middle of a commit."""
    killed = subprocess.run([sys.executable, "-c", DIE_WRITING, str(stocked.path)], check=False)
    assert killed.returncode == -signal.SIGKILL
    assert journal(stocked.path).stat().st_size > 0
    assert b"half written" in stocked.path.read_bytes(), "the fault is not there to be found"
    return stocked


def journal(path: Path) -> Path:
    """Where SQLite keeps what it needs to roll back."""
    return path.with_name(f"{path.name}-journal")


@pytest.mark.parametrize("arguments", COMMANDS, ids=" ".join)
def test_the_first_command_rolls_back_what_was_half_written(
    hot: Keeper, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    monkeypatch.chdir(hot.path.parent)
    result = hot.run(*arguments)
    assert "Traceback" not in result.stderr
    assert not journal(hot.path).exists()
    assert b"half written" not in hot.path.read_bytes()
    assert "Ember" in hot.run("animal", "list").stdout
    assert hot.run("file", "check").code == 0
    for copy in (*backup.all_of(hot.path), *hot.path.parent.glob("copy.warmside")):
        with closing(sqlite3.connect(copy)) as connection:
            assert {name for (name,) in connection.execute("SELECT name FROM animal")} <= {"Ember"}


def test_restoring_a_file_beyond_repair_does_not_play_its_journal_into_the_new_one(
    hot: Keeper,
) -> None:
    size = hot.path.stat().st_size
    hot.path.write_bytes(b"\x00" * size)  # all is lost, but the journal is still there
    hot.run("file", "restore", "--yes")
    assert hot.run("file", "check").code == 0
    assert "Ember" in hot.run("animal", "list").stdout
    (kept,) = backup.folder_of(hot.path).glob("replaced-*.kept")
    assert b"\x00" * 4096 in kept.read_bytes()


def test_a_spoilt_first_page_is_brought_back_by_the_journal(hot: Keeper) -> None:
    with hot.path.open("r+b") as file:
        file.write(b"\x00" * 4096)
    assert "Ember" in hot.run("animal", "list").stdout
    assert hot.run("file", "check").code == 0


def test_restoring_a_lost_file_is_not_spoilt_by_the_journal_it_left(hot: Keeper) -> None:
    hot.path.unlink()
    hot.run("file", "restore", "--yes")
    assert hot.run("file", "check").code == 0
    assert "Ember" in hot.run("animal", "list").stdout


def test_a_copy_taken_together_with_its_journal_works_too(hot: Keeper, tmp_path: Path) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    copy = Path(shutil.copy(hot.path, folder))
    shutil.copy(journal(hot.path), folder)
    assert "Ember" in Keeper(copy, hot.now).run("animal", "list").stdout
