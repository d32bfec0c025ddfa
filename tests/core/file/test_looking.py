"""The file is looked at without being asked: weekly after the round, and where a command fails."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.file import attention
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def weighed(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("weighed"))
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.run("record", "weighed", "EMB=410g")
    return keeper


@pytest.fixture
def mine(weighed: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(weighed, tmp_path, alone=True)


def break_(keeper: Keeper, script: str) -> None:
    """Change the file with another program, its guards left as they are."""
    with closing(sqlite3.connect(keeper.path)) as connection:
        guards = connection.execute(
            "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"
        ).fetchall()
        for name, _ in guards:
            connection.execute(f"DROP TRIGGER {name}")
        connection.executescript(script)
        for _, sql in guards:
            connection.execute(sql)
        connection.commit()


SLIP = "UPDATE event SET data = replace(data, '410', '470') WHERE kind = 'weighed'"


def test_the_round_looks_once_a_week_and_says_nothing_where_all_is_well(mine: Keeper) -> None:
    assert mine.run("today").stderr == ""
    break_(mine, SLIP)
    mine.pass_days(6)
    assert mine.run("today").stderr == "", "it was looked at six days ago"
    mine.pass_days(1)
    told = mine.run("today")
    assert told.stderr.startswith("note: ") and "event 2" in told.stderr
    assert "The round of" in told.stdout
    assert "event 2" in mine.run("animal", "list").stderr, "it is said until it is mended"


def test_a_file_that_this_machine_has_not_seen_is_looked_at(mine: Keeper) -> None:
    break_(mine, SLIP)
    assert "event 2" in mine.run("today").stderr


def test_a_json_answer_stays_one(mine: Keeper) -> None:
    break_(mine, SLIP)
    assert mine.run("today", "--json").json


CANNOT_BE_READ = {
    "empty row of the collection": "DELETE FROM collection",
    "unknown zone": "UPDATE collection SET zone = 'Europe/Nowhere'",
    "unknown units": "UPDATE collection SET units = 'stones'",
    "overwritten text": "UPDATE event SET data = 'xyz'",
    "data of another shape": "UPDATE event SET data = '[1]'",
    "a day that is none": "UPDATE event SET day = '2026-13-45'",
    "an instant that is none": "UPDATE event SET at = 'noon'",
    "a day of hatching that is none": "UPDATE animal SET hatched = 'spring'",
    "no species": "PRAGMA foreign_keys = OFF; DELETE FROM species",
    "settings that are none": "INSERT INTO plugin_state VALUES ('shed', 1, '', '', '{')",
    "a value of another kind": 'UPDATE event SET data = \'{"mass_g": "x"}\'',
    "a text in the place of a number": "UPDATE event SET animal_id = 'Ember'",
}
COMMANDS = (
    ("today",),
    ("history",),
    ("report", "EMB"),
    ("record", "weighed", "EMB=411g"),
    ("animal", "show", "EMB"),
    ("undo",),
    ("file", "check"),
)


@pytest.mark.parametrize("name", CANNOT_BE_READ)
def test_what_cannot_be_read_is_no_fault_of_the_program(mine: Keeper, name: str) -> None:
    """Whatever the command: done, or a line that says what is wrong in the file."""
    break_(mine, CANNOT_BE_READ[name])
    before = mine.path.read_bytes()
    for words in COMMANDS:
        told = mine.run(*words, ok=False)
        assert "a fault in warmside" not in told.stderr, (words, told.stderr)
        assert "Traceback" not in told.stderr
        assert told.code != 1, (words, told.stderr)
        mine.path.write_bytes(before)
    assert attention.standing(mine.path)
    assert mine.run("file", "check", ok=False).code == 5


def test_a_page_that_was_swapped_with_another_is_told(mine: Keeper) -> None:
    pages = bytearray(mine.path.read_bytes())
    size = 4096
    with closing(sqlite3.connect(mine.path)) as connection:
        roots = [
            connection.execute(
                "SELECT rootpage FROM sqlite_schema WHERE name = ?", (name,)
            ).fetchone()[0]
            for name in ("animal", "event")
        ]
    first, second = (slice((r - 1) * size, r * size) for r in roots)
    pages[first], pages[second] = pages[second], pages[first]
    mine.path.write_bytes(pages)
    for words in COMMANDS:
        told = mine.run(*words, ok=False)
        said = told.code or "look with: warmside file check" in told.stderr
        assert said and "a fault in warmside" not in told.stderr, (words, told)
