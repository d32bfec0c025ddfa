"""Each thing that can be wrong with a file is broken by hand here, and found."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.file.checks.rules import INVARIANTS
from warmside.core.file.checks.whole import check_file
from warmside.core.file.copies import backup
from warmside.core.plugins.host import Host
from warmside.core.record import sums
from warmside.core.record.guards import GUARD_NAMES
from warmside.testing import Keeper, copy_of, new_keeper, throw_away_plugin

UNGUARDED = "".join(f"DROP TRIGGER {name}; " for name in sorted(GUARD_NAMES))
GUARDS = "SELECT group_concat(sql, ';\n') FROM sqlite_schema WHERE type = 'trigger'"


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A collection in which nothing is wrong."""
    keeper = new_keeper(tmp_path_factory.mktemp("sound"), plugins=["rhythm"])
    for words in (
        ("enclosure", "add", "Shelf"),
        ("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE"),
        ("animal", "add", "Ash", "--species", "ball python", "--ancestor"),
        ("animal", "parents", "EMB", "--dam", "ASH"),
        ("record", "weighed", "EMB=412g"),
        ("correct", "2", "mass=421g"),
        ("record", "weighed", "EMB=430g"),
        ("rhythm", "set", "weighed", "--every", "30"),
    ):
        keeper.run(*words)
    return keeper


@pytest.fixture
def mine(sound: Keeper, tmp_path: Path) -> Keeper:
    """A copy of it to break, with a backup of its own."""
    keeper = copy_of(sound, tmp_path, alone=True)
    keeper.run("file", "backup")
    return keeper


def break_file(keeper: Keeper, script: str) -> None:
    """Run SQL behind our back: without references kept, and the guards put back at the end.

    The checksums are made to fit, so that the rules alone tell.
    """
    with closing(sqlite3.connect(keeper.path)) as connection:
        (guards,) = connection.execute(GUARDS).fetchone()
        connection.executescript(
            f"{UNGUARDED}{script};{guards};".replace("END;\nCREATE", "END;CREATE")
        )
        if "DROP TABLE" not in script:
            sums.renew(connection, sums.Wrong())
            connection.commit()


def problems(keeper: Keeper) -> dict[str, str]:
    """What `file check` finds wrong."""
    found = keeper.run("file", "check", "--json", ok=False).json
    return {c["what"]: c["problem"] for c in found["checks"] if c["problem"] != "none"}


def test_a_sound_file_has_no_problem(mine: Keeper) -> None:
    said = mine.run("file", "check")
    assert (said.code, said.stderr) == (0, "")
    assert said.stdout.startswith("all is well")
    assert mine.json("file", "check")["ok"] is True
    assert problems(mine) == {}


BROKEN = [
    (
        "UPDATE step SET undone_by = (SELECT max(id) FROM step) WHERE id = "
        "(SELECT step_id FROM event WHERE id = 4)",
        "events belong to steps in force",
        "1 event of undone steps still in force",
    ),
    (
        "UPDATE event SET replaced_by = 1 WHERE id = 2",
        "corrected events are replaced by one of the same kind",
        "1 event replaced by one of another kind",
    ),
    (
        "UPDATE step SET undone_by = (SELECT max(id) FROM step) WHERE id = 2",
        "undone steps and undoing ones name each other",
        "1 step marked undone",
    ),
    (
        "INSERT INTO event_shelf (id, kind, day, data, note, step_id) "
        "VALUES (900, 'weighed', '2026-03-01', '{}', '', 1)",
        "shelved events belong to undone steps",
        "1 event on the shelf of no undone step",
    ),
    ("DELETE FROM step WHERE id = 2", "steps are numbered without a gap", "1 step missing"),
    (
        "UPDATE event SET replaced_by = NULL",
        "corrections are in force as their steps say",
        "1 correction in force other than steps say",
    ),
    (
        "UPDATE event SET at = 'noon' WHERE id = 4",
        "instants are instants",
        "1 instant that is none",
    ),
    (
        "UPDATE sqlite_sequence SET seq = 3",
        "numbers of events are not given twice",
        "1 event with a number that may be given again",
    ),
    (
        "UPDATE sqlite_sequence SET seq = 9223372036854775807",
        "the next event follows the newest",
        "1 number that passes over those of events to come",
    ),
    (
        "INSERT INTO event_shelf (id, kind, animal_id, day, zone, data, note, step_id, "
        "replaced_by, sum) SELECT 9, kind, animal_id, day, zone, data, note, step_id, 1, 0 "
        "FROM event WHERE id = 4",
        "undone events were corrected by one of the same kind",
        "1 undone event replaced by none of its kind",
    ),
    ("UPDATE collection SET zone = 'Europe/Nowhere'", "zones are known", "'Europe/Nowhere' is"),
    ("UPDATE collection SET units = 'stones'", "units are known", "'stones' is none"),
    ("UPDATE collection SET keeping = 'all'", "the rule for keeping can be read", "'all' is none"),
    ("DELETE FROM collection", "the collection's own row", "there are 0 rows, not 1"),
    (
        "UPDATE animal SET hatched = 'spring' WHERE id = 1",
        "days of hatching can be read",
        "'spring' is none",
    ),
    ("UPDATE plugin_state SET settings = '[1]'", "settings can be read", "'[1]' is none"),
    ("UPDATE enclosure SET width_mm = 'wide'", "values in enclosure", "width_mm: 1 of another"),
    ("UPDATE enclosure SET retired = 7", "values in enclosure", "retired: 1 of another kind"),
    ("UPDATE animal SET name = x'00' WHERE id = 1", "values in animal", "name: 1 of another kind"),
    (
        "UPDATE animal SET code = 'A CODE THAT IS FAR TOO LONG' WHERE id = 1",
        "values in animal",
        "code: 1 of another kind than varchar(20)",
    ),
    ("UPDATE rhythm_interval SET days = 'often'", "values in rhythm_interval", "days: 1"),
    (
        "UPDATE event SET day = '2026-02-30' WHERE id = 4",
        "days are dates",
        "1 event with a day that is no date",
    ),
    (
        "UPDATE event SET day = 'last week' WHERE id >= 3",
        "days are dates",
        "2 events with a day that is no date",
    ),
    (
        "INSERT INTO parentage (child_id, role, parent_id, certainty) "
        "SELECT parent_id, 'dam', child_id, certainty FROM parentage",
        "nobody is an own ancestor",
        "2 animals in a circle of parents",
    ),
    (
        "INSERT INTO clutch (id, code, dam_id, note) VALUES (1, 'C1', 1, ''); "
        "INSERT INTO clutch_sire SELECT 1, id, 'probable', 0.6 FROM animal LIMIT 2",
        "weights of parents sum to at most 1",
        "1 sum of weights above 1",
    ),
    (
        "UPDATE event SET animal_id = 99 WHERE id = 4",
        "references between tables",
        "broken in event",
    ),
    (
        "UPDATE animal SET species_id = 999; DELETE FROM enclosure",
        "references between tables",
        "broken in animal, event",
    ),
    ("DROP TABLE event_shelf", "the core's tables", "missing: event_shelf"),
    (
        """UPDATE event SET data = '{"mass_g": -3}' WHERE id = 4""",
        "events are as their kinds declare",
        "event 4: weighed: mass is at least",
    ),
    (
        """UPDATE event SET data = '{"mass_g": 430, "colour": "red"}' WHERE id = 4""",
        "events are as their kinds declare",
        "event 4: weighed has no field 'colour'",
    ),
    (
        "UPDATE event SET data = 'no json' WHERE id = 4",
        "events are as their kinds declare",
        "event 4: ",
    ),
]


@pytest.mark.parametrize(("script", "what", "told"), BROKEN, ids=[b[2][:40] for b in BROKEN])
def test_what_is_broken_by_hand_is_found(mine: Keeper, script: str, what: str, told: str) -> None:
    break_file(mine, script)
    said = mine.run("file", "check", ok=False)
    assert (said.code, said.stderr) == (5, "")
    found = problems(mine)
    assert told in found[what]
    assert said.stdout.startswith(f"{len(found)} of ")


def test_every_invariant_is_among_those_broken_here() -> None:
    assert {what for what, _, _ in INVARIANTS} <= {what for _, what, _ in BROKEN}


def test_a_missing_guard_is_found(mine: Keeper) -> None:
    with closing(sqlite3.connect(mine.path)) as connection:
        connection.executescript(UNGUARDED)
    assert problems(mine) == {"the core's tables": f"missing: {', '.join(sorted(GUARD_NAMES))}"}


def test_a_damaged_page_is_found(mine: Keeper) -> None:
    with closing(sqlite3.connect(mine.path)) as connection:
        query = "SELECT rootpage FROM sqlite_schema WHERE tbl_name = 'species' AND type = 'index'"
        (page,) = connection.execute(query).fetchone()
        (size,) = connection.execute("PRAGMA page_size").fetchone()
    with mine.path.open("r+b") as file:
        file.seek((page - 1) * size + size - 40)
        file.write(b"xyz" * 10)
    told = mine.run("file", "check", ok=False)
    assert told.code == 5
    assert "the file's pages" in told.stdout or "damaged" in told.stderr


def test_no_backup_and_an_old_one_are_notes_that_fail_nothing(
    sound: Keeper, tmp_path: Path
) -> None:
    keeper = copy_of(sound, tmp_path, alone=True)
    assert problems(keeper) == {"backups": "there is none yet; make one: warmside file backup"}
    assert keeper.run("file", "check").code == 0
    keeper.run("file", "backup")
    (made,) = backup.all_of(keeper.path)
    made.touch()  # as where it was carried to another disk: its name tells its day
    keeper.pass_days(30)
    assert problems(keeper) == {}
    keeper.pass_days(1)
    ((what, told),) = problems(keeper).items()
    assert what == "backups"
    assert told.startswith("the newest is 31 days old")


def test_a_plugin_that_fails_is_found_and_the_rest_is_checked(mine: Keeper) -> None:
    def broken() -> list[object]:
        raise RuntimeError("no kinds today")

    with throw_away_plugin("lamps", warmside_event_kinds=broken):
        enable_by_hand(mine, "lamps")
        told = "warmside_event_kinds: RuntimeError: no kinds today"
        assert problems(mine)["plugin lamps"] == told


def enable_by_hand(keeper: Keeper, name: str) -> None:
    """Note a plugin as enabled that could not be enabled by command."""
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute(
            "INSERT INTO plugin_state (name, enabled, distribution, version, settings) "
            "VALUES (?, 1, '', '', '{}')",
            (name,),
        )


def test_events_of_absent_plugins_are_passed_over(mine: Keeper) -> None:
    break_file(mine, "UPDATE event SET kind = 'vanished.kind' WHERE id = 1")
    assert problems(mine) == {}


def test_checking_writes_nothing(mine: Keeper) -> None:
    before = mine.path.read_bytes()
    check_file(mine.path, Host().kinds, mine.now)
    assert mine.path.read_bytes() == before
