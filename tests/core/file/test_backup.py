"""Backups are whole, verified and rotate; the file in use is never copied as bytes."""

from __future__ import annotations

import os
import sqlite3
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from warmside.core.file.copies import backup
from warmside.core.file.copies.daily import daily
from warmside.core.file.state import read_state
from warmside.core.values.errors import FileProblem
from warmside.testing import Keeper

NOW = datetime(2026, 3, 5, 7, 30, 1, tzinfo=UTC)
DAY = date(2026, 3, 5)


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def damage(path: Path) -> None:
    """Overwrite a page in the middle of the file."""
    pages = bytearray(path.read_bytes())
    middle = len(pages) // 2 // 4096 * 4096
    pages[middle : middle + 4096] = b"\xff" * 4096
    path.write_bytes(pages)


def test_a_backup_holds_everything(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    copy = backup.make(keeper.path, keeper.path.parent / "deep" / "er" / "copy.warmside")
    assert dump(copy) == dump(keeper.path)
    assert read_state(copy) == read_state(keeper.path)
    assert not list(copy.parent.glob("*.part"))


def test_a_backup_takes_what_is_committed_while_another_writes(keeper: Keeper) -> None:
    before = dump(keeper.path)
    with closing(sqlite3.connect(keeper.path, isolation_level=None)) as writer:
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("UPDATE collection SET name = 'half written'")
        copy = backup.make(keeper.path, keeper.path.parent / "copy.warmside")
        writer.execute("ROLLBACK")
    assert dump(copy) == before


def test_a_damaged_file_is_not_backed_up_and_an_old_backup_stays(keeper: Keeper) -> None:
    target = backup.make(keeper.path, keeper.path.parent / "copy.warmside")
    kept = target.read_bytes()
    damage(keeper.path)
    with pytest.raises(FileProblem, match="damaged"):
        backup.make(keeper.path, target)
    assert target.read_bytes() == kept
    assert not list(target.parent.glob("*.part"))


def test_the_first_write_of_a_day_backs_up_once(keeper: Keeper) -> None:
    keeper.run("species", "add", "Gekko fictus")
    keeper.run("species", "add", "Gekko altus")
    (made,) = backup.all_of(keeper.path)
    assert made.name == "day-2026-03-05.warmside"
    with closing(sqlite3.connect(made)) as connection:  # as it was before that write
        assert connection.execute("SELECT count(*) FROM step").fetchone() == (0,)
    keeper.pass_days(1)
    keeper.run("animal", "list")
    assert len(backup.all_of(keeper.path)) == 1, "reading is no reason for a backup"
    keeper.run("undo")
    assert backup.all_of(keeper.path)[0].name == "day-2026-03-06.warmside"


def test_daily_backups_beyond_the_rule_are_removed(keeper: Keeper) -> None:
    """14 days, and what was first in a week or month: the 5th and the 9th."""
    other = backup.before(keeper.path, "update", NOW)
    for n in range(20):
        assert daily(keeper.path, DAY + timedelta(days=n)).copy is not None
    assert daily(keeper.path, DAY + timedelta(days=19)).copy is None
    names = sorted(p.name for p in backup.all_of(keeper.path) if p != other)
    days = [DAY, *(DAY + timedelta(days=n) for n in (4, *range(6, 20)))]
    assert names == [f"day-{day}.warmside" for day in days]
    assert other.exists(), "only daily backups rotate"


def test_backups_before_a_change_never_overwrite_each_other(keeper: Keeper) -> None:
    made = [backup.before(keeper.path, "update", NOW).name for _ in range(3)]
    assert made == [
        "before-update-20260305T073001.warmside",
        "before-update-20260305T073001-2.warmside",
        "before-update-20260305T073001-3.warmside",
    ]


def test_the_newest_backup_is_found_by_its_time(keeper: Keeper) -> None:
    assert backup.all_of(keeper.path) == []
    first = backup.before(keeper.path, "update", NOW)
    second = backup.before(keeper.path, "update", NOW)
    os.utime(second, (1, 1))
    assert backup.all_of(keeper.path) == [first, second]


def test_a_step_is_written_even_where_no_backup_can_be(keeper: Keeper) -> None:
    backup.folder_of(keeper.path).write_text("a file where the folder should be")
    done = keeper.run("species", "add", "Gekko fictus")
    assert done.stderr.startswith("note: no backup was made today: cannot write the backup")
    assert done.stderr.count("\n") == 1


def test_restore_brings_back_what_was_and_keeps_what_is(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    copy = keeper.path.parent / "copy.warmside"
    keeper.run("file", "backup", str(copy))
    was = dump(keeper.path)
    keeper.run("animal", "add", "Moss", "--species", "leopard gecko")
    replaced = dump(keeper.path)
    assert keeper.run("file", "restore", str(copy), ok=False).code == 4, "it asks first"
    said = keeper.run("file", "restore", str(copy), "--yes").stdout
    assert dump(keeper.path) == was
    (kept,) = backup.folder_of(keeper.path).glob("replaced-*")
    assert kept.name in "".join(said.split())
    assert dump(kept) == replaced


def test_restore_works_where_the_file_is_damaged_or_gone(keeper: Keeper) -> None:
    keeper.run("species", "add", "Gekko fictus")
    keeper.run("file", "backup")
    was = dump(keeper.path)
    keeper.path.write_bytes(b"")
    keeper.run("file", "restore", "--yes")
    assert dump(keeper.path) == was
    keeper.path.unlink()
    keeper.run("file", "restore", "--yes")
    assert dump(keeper.path) == was


def test_restore_refuses_what_is_no_collection(keeper: Keeper) -> None:
    was = keeper.path.read_bytes()
    wrong = keeper.path.parent / "letter.txt"
    wrong.write_text("dear keeper, " * 100)
    assert keeper.run("file", "restore", str(wrong), "--yes", ok=False).code == 5
    gone = str(keeper.path.parent / "nowhere.warmside")
    assert keeper.run("file", "restore", gone, "--yes", ok=False).code == 3
    assert keeper.path.read_bytes() == was


def test_a_backup_never_overwrites_a_file(keeper: Keeper) -> None:
    keeper.run("file", "backup", str(keeper.path.parent / "copy.warmside"))
    again = keeper.run("file", "backup", str(keeper.path.parent / "copy.warmside"), ok=False)
    assert (again.code, "is there already" in again.stderr) == (4, True)


def test_backups_are_listed_newest_first(keeper: Keeper) -> None:
    assert keeper.json("file", "restore", "--list")["backups"] == []
    keeper.run("species", "add", "Gekko fictus")
    listed = keeper.json("file", "restore", "--list")["backups"]
    assert [Path(b["backup"]).name for b in listed] == ["day-2026-03-05.warmside"]


BACKING_UP = """
import sys
from datetime import date
from pathlib import Path
from warmside.core.file.copies.daily import daily
for day in range(1, 9):
    daily(Path(sys.argv[1]), date(2026, 4, day))
"""


def test_threads_that_write_first_on_a_day_make_one_backup_without_alarm(keeper: Keeper) -> None:
    days = [DAY + timedelta(days=n) for n in range(5)]
    for day in days:
        together = threading.Barrier(4)

        def first_write(day: date = day, together: threading.Barrier = together) -> Path | None:
            together.wait()
            return daily(keeper.path, day).copy

        with ThreadPoolExecutor(4) as pool:
            made = [future.result() for future in [pool.submit(first_write) for _ in range(4)]]
        assert len([m for m in made if m]) == 1, "the first backup was made again"
    assert len(backup.all_of(keeper.path)) == len(days)
    assert not list(backup.folder_of(keeper.path).glob("*.part"))


def test_programs_that_write_first_on_a_day_raise_no_alarm(keeper: Keeper) -> None:
    programs = [keeper.start(str(keeper.path), program=("-c", BACKING_UP)) for _ in range(2)]
    told = [p.communicate() for p in programs]
    assert [p.returncode for p in programs] == [0, 0], told
    copies = backup.all_of(keeper.path)
    assert len(copies) == 8 and all(dump(c) == dump(keeper.path) for c in copies)
    assert not list(backup.folder_of(keeper.path).glob("*.part"))
