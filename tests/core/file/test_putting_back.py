"""A lost, damaged or mistaken collection: what is inside the copies decides, not their times."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.file.copies import backup
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def days(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Three days with a copy each, the newest of which holds two animals; then a third animal."""
    keeper = new_keeper(tmp_path_factory.mktemp("days"))
    for name in ("Ember", "Moss", "Sol"):
        keeper.run("animal", "add", name, "--species", "ball python")
        keeper.pass_days(1)
    return keeper


@pytest.fixture
def mine(days: Keeper, tmp_path: Path) -> Keeper:
    keeper = copy_of(days, tmp_path, alone=True)
    for copy in backup.all_of(days.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    return keeper


def names(keeper: Keeper) -> str:
    return keeper.run("animal", "list", "--all").stdout


def test_the_copy_that_goes_furthest_is_put_back_whatever_the_files_times(mine: Keeper) -> None:
    newest, *older = sorted(backup.all_of(mine.path), reverse=True)
    os.utime(newest, (1, 1))
    mine.path.unlink()
    said = mine.run("file", "restore", "--yes")
    told = " ".join(said.stdout.split())
    assert "2 animals" in told and "last step 2026-03-06 12:00 UTC" in told
    assert "Moss" in names(mine) and "Sol" not in names(mine)
    assert len(older) == 2


def test_a_damaged_copy_is_passed_over_and_named(mine: Keeper) -> None:
    newest = max(backup.all_of(mine.path))
    with closing(sqlite3.connect(newest)) as connection, connection:
        connection.execute("UPDATE animal SET name = 'Nobody'")
    mine.path.unlink()
    said = mine.run("file", "restore", "--yes")
    assert f"{newest.name} was passed over" in said.stderr and "animal" in said.stderr
    assert "Ember" in names(mine) and "Moss" not in names(mine)


def test_no_sound_copy_is_said_with_what_is_left_to_do(mine: Keeper) -> None:
    for copy in backup.all_of(mine.path):
        copy.write_bytes(b"nothing" * 1000)
    mine.path.unlink()
    line = mine.run("file", "restore", "--yes", ok=False).complaint(5)
    assert "none of the 3 copies" in line and "file recover" in line


def test_a_copy_of_another_collection_is_not_put_in_its_place(mine: Keeper, tmp_path: Path) -> None:
    (tmp_path / "x").mkdir()
    other = new_keeper(tmp_path / "x", now=mine.now)
    with closing(sqlite3.connect(other.path)) as connection, connection:
        connection.execute("UPDATE collection SET identity = ?", ("0" * 32,))
    other.pass_days(9)
    other.run("animal", "add", "Stranger", "--species", "ball python")
    foreign = backup.make(other.path, backup.folder_of(mine.path) / "day-2026-03-20.warmside")
    line = mine.run("file", "restore", str(foreign), "--yes", ok=False).complaint(4)
    assert "another collection" in line
    mine.pass_days(20)
    said = mine.run("file", "restore", "--yes")
    assert "another collection" in said.stderr and "Moss" in names(mine)
    states = {b["backup"]: b["state"] for b in mine.json("file", "restore", "--list")["backups"]}
    assert states.pop(str(foreign)) == "of another collection"
    assert set(states.values()) == {"sound"}
    mine.path.unlink()
    line = mine.run("file", "restore", "--yes", ok=False).complaint(4)
    assert "more than one collection" in line


def test_a_clock_that_ran_ahead_is_warned_about_and_does_not_win(mine: Keeper) -> None:
    ahead = Keeper(mine.path, mine.now)
    ahead.pass_days(2000)
    ahead.run("animal", "add", "Later", "--species", "ball python")
    ahead.run("file", "backup")
    rows = mine.json("file", "restore", "--list")["backups"]
    assert [r["state"] for r in rows].count("of a clock that ran ahead") == 1
    assert rows[-1]["state"] == "of a clock that ran ahead"
    kept = next(p for p in backup.all_of(mine.path) if p.name.startswith("kept-"))
    said = mine.run("file", "restore", str(kept), "--yes")
    assert "still to come" in said.stderr


COMMANDS = (("today",), ("animal", "list"), ("record", "weighed", "EMB=4g"), ("file", "check"))


@pytest.mark.parametrize("typed", COMMANDS, ids=" ".join)
def test_where_the_file_is_lost_every_command_says_how_to_put_it_back(
    mine: Keeper, typed: tuple[str, ...]
) -> None:
    mine.path.unlink()
    told = mine.run(*typed, ok=False)
    assert told.code in (3, 5) and "warmside file restore" in told.stderr
    assert not mine.path.exists()


def test_where_the_file_is_lost_no_new_one_is_made_over_its_copies(mine: Keeper) -> None:
    mine.path.unlink()
    new = ("new", "--name", "Room", "--zone", "Europe/Vienna", "--units", "metric")
    line = mine.run(*new, ok=False).complaint(4)
    assert "file restore" in line and not mine.path.exists()
    for words in ((), ("file", "where")):
        assert "file restore" in mine.run(*words).stdout


@pytest.mark.skipif(os.name != "posix", reason="links of POSIX")
def test_a_link_to_the_collection_stays_one(mine: Keeper, tmp_path: Path) -> None:
    link = tmp_path / "elsewhere" / "mine.warmside"
    link.parent.mkdir()
    link.symlink_to(mine.path)
    by_link = Keeper(link, mine.now)
    by_link.run("animal", "add", "Later", "--species", "ball python")
    by_link.run("file", "restore", "--yes")
    assert link.is_symlink() and link.resolve() == mine.path.resolve()
    assert not backup.folder_of(link).exists()
    assert "Later" not in names(mine)
