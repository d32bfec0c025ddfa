"""Numbers, names, places and clocks at their limits: a line that says what to do, nothing lost."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from warmside.core.file.copies import backup
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("odd"))
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    keeper.run("record", "weighed", "EMB=410g")
    return keeper


@pytest.fixture
def mine(once: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(once, tmp_path)


@pytest.mark.parametrize("number", [2**63, 10**30])
def test_a_huge_number_is_one_that_there_is_not(mine: Keeper, number: int) -> None:
    assert f"there is no step {number}" in mine.run("undo", number, ok=False).complaint(3)
    assert "there is no event" in mine.run("correct", number, "mass=1g", ok=False).complaint(3)


PLACES = {
    "long name": ("n" * 250, "is too long"),
    "deep path": ("/".join("d" * 9 for _ in range(60)), "is too long"),
    "not UTF-8": (os.fsdecode(b"\xff\xfe.warmside"), "is not UTF-8"),
}


@pytest.mark.skipif(os.name != "posix", reason="names of POSIX")
@pytest.mark.parametrize("name", PLACES)
def test_a_place_where_no_file_can_be_is_said(mine: Keeper, tmp_path: Path, name: str) -> None:
    place, told = PLACES[name]
    target = tmp_path / place
    for words in (("backup",), ("export",), ("recover",)):
        assert told in mine.run("file", *words, str(target), ok=False).complaint(2)
    assert told in mine.run("today", "--save", f"{target}.txt", ok=False).complaint(2)
    other = Keeper(target, mine.now)
    new = ("new", "--name", "Room", "--zone", "UTC", "--units", "metric")
    for typed in (("today",), new):
        assert told in other.run(*typed, ok=False).complaint(2)


@pytest.mark.skipif(os.name != "posix", reason="paths of POSIX")
def test_two_slashes_at_the_beginning_name_the_same_file(mine: Keeper) -> None:
    by_two = ("--collection", f"/{mine.path}")
    mine.run(*by_two, "record", "weighed", "EMB=415g")
    assert "415 g" in mine.run(*by_two, "history").stdout


def test_a_copy_onto_the_folder_of_copies_is_refused(mine: Keeper) -> None:
    mine.run("file", "backup")
    folder = str(backup.folder_of(mine.path))
    assert "is there already" in mine.run("file", "backup", folder, ok=False).complaint(4)


def test_a_header_of_garbage_beside_copies_says_how_to_go_on(mine: Keeper) -> None:
    mine.run("file", "backup")
    mine.path.write_bytes(b"garbage" * 40 + mine.path.read_bytes()[280:])
    line = mine.run("today", ok=False).complaint(5)
    assert "damaged" in line and "file restore" in line
    mine.run("file", "restore", "--yes")
    assert "410 g" in mine.run("history").stdout


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="needs a source without end")
def test_a_sheet_that_never_ends_is_not_waited_for(mine: Keeper) -> None:
    line = mine.run("import", "/dev/zero", "--kind", "weighed", ok=False).complaint(2)
    assert "larger than 64 MB" in line


@pytest.mark.parametrize("year", [1800, 2999, 9999])
def test_a_clock_at_the_end_of_all_days_is_said(mine: Keeper, year: int) -> None:
    """At home it may be another year already, or what is due lie in one."""
    late = Keeper(mine.path, datetime(year, 12, 31, 23, 30, tzinfo=UTC))
    for words in (("today",), ("record", "weighed", "EMB=411g")):
        assert "set it right" in late.run(*words, ok=False).complaint(2)


def test_an_answer_is_saved_whole_for_its_owner_alone(mine: Keeper, tmp_path: Path) -> None:
    target = tmp_path / "answer.json"
    target.write_text("older")
    mine.run("animal", "list", "--save", str(target), "--replace")
    assert "Ember" in target.read_text()
    assert not list(tmp_path.glob("*.part"))
    if os.name == "posix":
        assert target.stat().st_mode & 0o777 == 0o600
