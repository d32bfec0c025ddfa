"""The day's copy is of a sound file; of another the good copies stay, and every command says so."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from itertools import accumulate, pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.file import attention
from warmside.core.file.checks.sums import part_of
from warmside.core.file.copies import backup
from warmside.core.file.copies.daily import daily, superfluous
from warmside.core.file.copies.keeping import Keeping
from warmside.core.file.state import identity_in
from warmside.testing import Keeper, copy_of, new_keeper

DAY = date(2026, 3, 5)


@pytest.fixture(scope="module")
def weighed(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("weighed"))
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    for mass in (410, 415, 420):
        keeper.run("record", "weighed", f"EMB={mass}g")
    return keeper


@pytest.fixture
def mine(weighed: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(weighed, tmp_path, alone=True)


def rot(path: Path, event: int = 2) -> None:
    """One digit of one weight becomes another, as a bad disk would do; all else is well."""
    with closing(sqlite3.connect(path)) as connection, connection:
        (guard,) = connection.execute(
            "SELECT sql FROM sqlite_schema WHERE name = 'event_is_append_only'"
        ).fetchone()
        connection.execute("DROP TRIGGER event_is_append_only")
        connection.execute("UPDATE event SET data = replace(data, '4', '6') WHERE id = ?", (event,))
        connection.execute(guard)


def test_a_changed_digit_is_found_while_a_copy_still_holds_the_right_one(mine: Keeper) -> None:
    """22 days later none of 14 copies did, and nothing was said."""
    for n in range(20):
        daily(mine.path, DAY + timedelta(days=n))
    rot(mine.path)
    for n in range(20, 60):
        daily(mine.path, DAY + timedelta(days=n))
    assert "event 2" in "".join(attention.standing(mine.path))
    good = [p for p in backup.all_of(mine.path) if "410" in weights(p)]
    assert good
    doubtful = [p for p in backup.all_of(mine.path) if p.name.startswith("doubtful-")]
    assert len(doubtful) == 3


def test_of_a_keeper_who_keeps_two_copies_and_writes_once_a_week_it_is_found_too(
    mine: Keeper,
) -> None:
    mine.run("file", "change", "--keep", "2 days, 0 weeks, 0 months")
    for n in (0, 7, 14):
        daily(mine.path, DAY + timedelta(days=n))
    rot(mine.path)
    for n in (21, 28, 35, 42):
        daily(mine.path, DAY + timedelta(days=n))
    assert "event 2" in "".join(attention.standing(mine.path))
    assert [p for p in backup.all_of(mine.path) if "410" in weights(p)]


def weights(path: Path) -> str:
    with closing(sqlite3.connect(path)) as connection:
        return str(connection.execute("SELECT data FROM event WHERE kind = 'weighed'").fetchall())


def test_what_was_found_is_said_on_every_command_until_it_is_mended(mine: Keeper) -> None:
    daily(mine.path, mine.now.date())
    rot(mine.path)
    assert mine.run("file", "check", ok=False).code == 5
    for words in (("animal", "list"), ("today",), ("record", "observed", "EMB", "--what", "calm")):
        told = mine.run(*words).stderr
        assert told.startswith("note: ") and "needs attention" in told and "event 2" in told
    said = mine.run("file", "restore", "--yes")
    assert "day-2026-03-05" in "".join(said.stdout.split())  # a long path is wrapped
    assert mine.run("animal", "list").stderr == ""
    assert mine.run("file", "check").code == 0


@pytest.mark.parametrize("gap", [1, 3, 7, 14, 40])
def test_whoever_writes_every_so_many_days_has_all_looked_at_in_a_fortnight(
    mine: Keeper, gap: int
) -> None:
    with closing(sqlite3.connect(mine.path)) as connection:
        connection.execute("DROP TRIGGER event_days_are_days")
        connection.execute(
            "WITH RECURSIVE n(i) AS (SELECT 10 UNION ALL SELECT i + 1 FROM n WHERE i < 4000) "
            "INSERT INTO event (id, kind, animal_id, day, data, note, step_id) "
            "SELECT i, 'fed', 1, '', '', '', 1 FROM n"
        )
        every = {i for (i,) in connection.execute("SELECT id FROM event")}
        seen: set[int] = set()
        for n in range(0, 14, gap):
            day = DAY + timedelta(days=n)
            part = part_of(day, day - timedelta(days=gap), 14).ids(connection)
            ids = {i for (i,) in connection.execute(f"SELECT id FROM event WHERE {part}")}
            assert len(ids) < 4000 * (min(gap, 14) + 2) / 14 and 4000 in ids
            seen |= ids
        assert seen == every


@given(st.integers(1, 40), st.lists(st.integers(1, 30), min_size=40, max_size=40))
def test_each_slice_is_looked_at_before_the_last_copy_that_holds_it_is_removed(
    copies: int, gaps: list[int]
) -> None:
    """Of so many copies one after the other, each with its look, none leaves a slice out."""
    days = list(accumulate(gaps, lambda day, gap: day + timedelta(days=gap), initial=DAY))
    parts = [part_of(day, since, copies) for since, day in pairwise(days)]
    for first in range(len(parts) - copies):
        looked = {slice for part in parts[first : first + copies] for slice in part.due}
        assert looked == set(range(parts[0].slices))


def test_copies_of_another_collection_and_of_days_to_come_are_never_removed(
    mine: Keeper, tmp_path: Path
) -> None:
    (tmp_path / "x").mkdir()
    other = new_keeper(tmp_path / "x")
    with closing(sqlite3.connect(other.path)) as connection, connection:
        connection.execute("UPDATE collection SET identity = ?", ("0" * 32,))
    folder = backup.folder_of(mine.path)
    foreign = backup.make(other.path, folder / "day-2020-01-01.warmside")
    ahead = backup.make(mine.path, folder / "day-2031-01-01.warmside")
    old = backup.make(mine.path, folder / "day-2020-01-02.warmside")
    made = daily(mine.path, DAY).copy
    assert made is not None
    many = superfluous(backup.all_of(mine.path), DAY, Keeping(1, 0, 0), identity_in(mine.path))
    assert many == [old]
    assert foreign.exists() and ahead.exists() and made.exists()


def test_second_copies_are_whole_closed_files_in_the_folder_of_the_keepers_choice(
    mine: Keeper, tmp_path: Path
) -> None:
    folder = tmp_path / "other disk"
    line = mine.run("file", "change", "--second", str(folder), ok=False).complaint(2)
    assert "there is no folder" in line
    folder.mkdir()
    mine.run("file", "change", "--second", str(folder))
    assert "last copied" in mine.run("file", "where").stdout
    assert mine.json("file", "where")["last_copied"] == "never"
    assert "newest_backup" not in mine.json("file", "where"), "of copies beside it, too"
    mine.run("record", "weighed", "EMB=425g")
    (copy,) = folder.iterdir()
    assert copy.name.endswith("-day-2026-03-05.warmside")
    assert identity_in(copy) == identity_in(mine.path)
    where = mine.json("file", "where")
    assert (where["newest_backup"], where["last_copied"]) == ("2026-03-05", "2026-03-05")
    mine.pass_days(31)
    told = {c["what"]: c["problem"] for c in mine.json("file", "check")["checks"]}
    assert told["second copies"].startswith(f"the newest in {folder} is 31 days old")
    assert f"note: second copies: the newest in {folder} is 31 days" in mine.run("today").stderr
    assert "second copies" not in mine.run("today").stderr, "it is said once a week"
    mine.pass_days(-31)
    copy.unlink()
    folder.rmdir()
    mine.pass_days(1)
    assert "there is no folder" in mine.run("file", "check").stdout
    told = mine.run("record", "weighed", "EMB=426g").stderr
    assert "no second copy was made: there is no folder" in told


def test_a_file_to_try_things_in_does_not_replace_the_second_copies_of_the_real_one(
    mine: Keeper, tmp_path: Path
) -> None:
    folder = tmp_path / "other disk"
    folder.mkdir()
    tries = backup.make(mine.path, tmp_path / "tries" / mine.path.name)
    daily(mine.path, DAY, lambda identity: folder)
    (real,) = folder.iterdir()
    held = real.stat()
    daily(tries, DAY, lambda identity: folder)
    assert real.stat() == held
    (other,) = (p for p in folder.iterdir() if p != real)
    assert other.name.endswith("-day-2026-03-05-2.warmside")


def test_the_rule_for_copies_is_a_step_that_can_be_taken_back(mine: Keeper) -> None:
    mine.run("file", "change", "--keep", "3 days, 0 weeks, 2 months")
    assert "3 days" in mine.run("undo").stdout
    mine.run("file", "change", "--keep", "often", ok=False).complaint(2)


@pytest.mark.skipif(os.name != "posix", reason="rights of POSIX")
def test_nobody_else_may_read_what_is_written(tmp_path: Path) -> None:
    old = os.umask(0o022)
    try:
        keeper = Keeper(tmp_path / "deep" / "room.warmside")
        keeper.run("new", "--name", "Room", "--zone", "Europe/Vienna", "--units", "metric")
        keeper.run("species", "add", "Gekko fictus")
        keeper.run("file", "backup")
        keeper.run("file", "export", tmp_path / "all.zip")
        new = Keeper(tmp_path / "again.warmside")
        new.run("file", "import", tmp_path / "all.zip")
    finally:
        os.umask(old)
    folder = backup.folder_of(keeper.path)
    written = [keeper.path, new.path, tmp_path / "all.zip", *backup.all_of(keeper.path)]
    assert {p.stat().st_mode & 0o777 for p in written} == {0o600}
    assert folder.stat().st_mode & 0o777 == 0o700


def test_what_a_killed_program_left_is_swept(mine: Keeper) -> None:
    left = mine.path.with_name(f"{mine.path.name}.0123456789ab.part")
    left.write_bytes(b"half")
    os.utime(left, (1, 1))
    young = mine.path.with_name(f"{mine.path.name}.0123456789cd.part")
    young.write_bytes(b"half, being made")
    daily(mine.path, DAY)
    assert not left.exists() and young.exists()
