"""kill -9 at random moments: what was acknowledged is there, and nothing is half there.

This shows that a killed process loses nothing that it had reported; for a loss of power see
`test_power_loss.py`.
"""

from __future__ import annotations

import os
import random
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from forked import Forked
from warmside.core.file.copies import backup
from warmside.migrations import Lineage
from warmside.testing import Keeper

if os.name != "posix":
    pytest.skip("needs SIGKILL", allow_module_level=True)

ROUNDS = 3
RECORDER = """
import sys
from warmside.cli.entry import main
n = int(sys.argv[1])
while main(["record", "observed", "EMB", "SOL", "--what", str(n)]) == 0:
    print("acknowledged", n, flush=True)
    n += 1
"""
WARMED_UP = """
import sys
import warmside.cli.app, warmside.cli.commands.file, warmside.cli.commands.plugin
import warmside.cli.plugin_switching, warmside.migrations.runner, warmside.core.file.checks.whole
from warmside.cli.entry import main
print("go", flush=True)
sys.exit(main(sys.argv[1:]))
"""
LATER = """
import warmside.migrations
from warmside.migrations import Lineage, runner
warmside.migrations.CORE = runner.CORE = Lineage("core", "{package}", "c0002")
"""


@pytest.fixture
def pair(stocked: Keeper) -> Keeper:
    """The stocked collection with a second animal."""
    stocked.run("animal", "add", "Sol", "--species", "ball python")
    return stocked


@pytest.fixture
def big(pair: Keeper) -> Keeper:
    """A collection of about 20 MB, so that copying it takes a while."""
    with closing(sqlite3.connect(pair.path)) as connection:
        connection.execute(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 9000) "
            "INSERT INTO event (kind, animal_id, day, data, note, step_id) SELECT 'observed', 1, "
            "'2020-01-01', '{\"what\":\"calm\"}', hex(randomblob(1000)), 1 FROM n"
        )
        connection.commit()
    return pair


def killed_at_random(
    keeper: Keeper,
    rng: random.Random,
    *arguments: str,
    program: str = WARMED_UP,
    begun: Callable[[], bool] = lambda: True,
) -> Iterator[bool]:
    """Run a command once to see how long it takes, then kill it early, midway and late.

    With `begun`, the way begins once that is so. Yields whether the command had come to its end,
    each time before the next.
    """
    longest = 0.0
    for number in range(ROUNDS + 1):
        process = Forked(keeper, program, *arguments)
        assert process.stdout.readline() == "go\n"
        while not begun() and process.poll() is None:
            time.sleep(0.0005)  # to wait at full speed takes the other's processor
        started = time.monotonic()
        if number == 0:
            said = process.communicate()
            longest = time.monotonic() - started
            assert process.returncode == 0, said
        else:
            time.sleep(longest * (number - rng.random()) / ROUNDS)  # one in each part of the way
            process.kill()
            process.communicate()
        yield process.returncode == 0


def writing(path: Path) -> Callable[[], bool]:
    """Whether a change of the file has begun and is not yet done: its journal is there."""
    journal = path.with_name(f"{path.name}-journal")
    return lambda: journal.exists() and journal.stat().st_size > 0


def sound(path: Path) -> sqlite3.Connection:
    """The file, once it has been found whole."""
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    return connection


def test_what_was_recorded_survives(pair: Keeper) -> None:
    rng, next_number = random.Random(1), 0
    for _ in range(ROUNDS):
        process = Forked(pair, RECORDER, str(next_number))
        said = ""
        while "acknowledged" not in said:  # it has begun
            said += process.stdout.readline()
        time.sleep(rng.uniform(0, 0.15))
        process.kill()
        said += process.communicate()
        lines = [line for line in said.splitlines() if line.startswith("acknowledged ")]
        acknowledged = {int(line.split()[1]) for line in lines}
        with closing(sound(pair.path)) as connection:
            rows = connection.execute(
                "SELECT json_extract(data, '$.what'), count(*), count(DISTINCT step_id) "
                "FROM event WHERE kind = 'observed' GROUP BY 1"
            ).fetchall()
            empty = connection.execute(
                "SELECT count(*) FROM step s WHERE NOT EXISTS (SELECT 1 FROM event e WHERE "
                "e.step_id = s.id) AND NOT EXISTS (SELECT 1 FROM change c WHERE c.step_id = s.id)"
            ).fetchone()[0]
        there = {int(what) for what, _, _ in rows}
        assert acknowledged <= there
        assert len(there - set(range(next_number)) - acknowledged) <= 1  # a cut-off report
        assert all(row[1:] == (2, 1) for row in rows), "half a step"
        assert empty == 0
        next_number = max(there) + 1
    assert pair.run("file", "check").code == 0


def test_a_backup_is_whole_or_absent(big: Keeper) -> None:
    target = big.path.with_name("copy.warmside")
    with closing(sound(big.path)) as connection:
        wanted = connection.execute("SELECT count(*), sum(id) FROM event").fetchone()
    there = {*big.path.parent.iterdir()}
    for finished in killed_at_random(
        big,
        random.Random(2),
        *("file", "backup", str(target)),
        begun=lambda: {*big.path.parent.iterdir()} > there,
    ):
        assert target.exists() or not finished
        if target.exists():
            with closing(sound(target)) as connection:
                got = connection.execute("SELECT count(*), sum(id) FROM event").fetchone()
            assert got == wanted
            target.unlink()
        sound(big.path).close()


def test_the_days_first_backup_is_whole_or_absent(big: Keeper) -> None:
    arguments = ("record", "weighed", "EMB=410g")
    for path in backup.all_of(big.path):
        path.unlink()
    folder = backup.folder_of(big.path)
    for _ in killed_at_random(
        big, random.Random(3), *arguments, begun=lambda: any(folder.iterdir())
    ):
        for path in backup.all_of(big.path):
            sound(path).close()
            path.unlink()
        sound(big.path).close()


def test_restoring_gives_the_old_or_the_new(big: Keeper) -> None:
    saved = big.path.with_name("saved.warmside")
    big.run("file", "backup", str(saved))
    big.run("animal", "add", "Later", "--species", "ball python")
    later, folder = big.path.read_bytes(), backup.folder_of(big.path)
    arguments = ("file", "restore", str(saved), "--yes")
    for finished in killed_at_random(
        big, random.Random(4), *arguments, begun=lambda: any(folder.glob("*.kept"))
    ):
        with closing(sound(big.path)) as connection:
            names = {n for (n,) in connection.execute("SELECT name FROM animal")}
            events = connection.execute("SELECT count(*) FROM event").fetchone()[0]
        assert names in ({"Ember", "Sol"}, {"Ember", "Sol", "Later"})
        assert not (finished and "Later" in names)
        assert events == (9006 if "Later" in names else 9005), "something between old and new"
        for kept in folder.glob("*.kept"):
            sound(kept).close()
            kept.unlink()
        big.path.with_name(f"{big.path.name}-journal").unlink(missing_ok=True)  # an unused one
        big.path.write_bytes(later)


def test_enabling_a_plugin_can_be_done_again(pair: Keeper) -> None:
    before = pair.path.read_bytes()
    for finished in killed_at_random(
        pair, random.Random(5), "plugin", "enable", "rhythm", begun=writing(pair.path)
    ):
        sound(pair.path).close()
        state = {p["name"]: p["state"] for p in pair.json("plugin", "list")["plugins"]}
        assert state["rhythm"] == "enabled" or not finished
        if state["rhythm"] == "off":
            pair.run("plugin", "enable", "rhythm")
        pair.run("rhythm", "list")
        pair.path.write_bytes(before)


def test_an_import_is_whole_or_absent(pair: Keeper) -> None:
    days = [date(2010, 1, 1) + timedelta(days=n) for n in range(4000)]
    table = pair.path.with_name("weights.csv")
    lines = [f"{day},EMB,{300 + n % 90}" for n, day in enumerate(days)]
    table.write_text("\n".join(["date,animal,mass_g", *lines]) + "\n")
    before = pair.path.read_bytes()
    arguments = ("import", str(table), "--kind", "weighed")
    for finished in killed_at_random(pair, random.Random(6), *arguments, begun=writing(pair.path)):
        with closing(sound(pair.path)) as connection:
            query = "SELECT count(*) FROM event WHERE kind = 'weighed'"
            weighed = connection.execute(query).fetchone()[0] - 3
        assert weighed in (0, len(days))
        assert weighed == len(days) or not finished
        pair.path.write_bytes(before)


def test_an_upgrade_is_whole_or_absent(big: Keeper, later_core: Lineage) -> None:
    with closing(sqlite3.connect(big.path)) as connection:
        connection.execute(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 30000) "
            "INSERT INTO animal (code, name, species_id, sex, sex_known_by, hatched, origin, note) "
            "SELECT 'N' || i, 'n', 1, 'unknown', 'not known', '', '', hex(randomblob(50)) FROM n"
        )
        connection.commit()
        count = "SELECT (SELECT count(*) FROM animal), (SELECT count(*) FROM event)"
        wanted = connection.execute(count).fetchone()
    before = big.path.read_bytes()
    later = LATER.format(package=later_core.package)
    for finished in killed_at_random(
        big, random.Random(7), "enclosure", "list", program=later + WARMED_UP
    ):
        with closing(sound(big.path)) as connection:
            assert connection.execute(count).fetchone() == wanted
            revision = connection.execute("SELECT version_num FROM schema_version_core").fetchone()
            columns = {r[1] for r in connection.execute("PRAGMA table_info(animal)")}
            half = "SELECT count(*) FROM sqlite_schema WHERE name GLOB '_alembic*'"
            assert connection.execute(half).fetchone() == (0,)
        assert ("size" in columns) == (revision == ("c9999",))
        assert "size" in columns or not finished
        for copy in backup.folder_of(big.path).glob("before-update-*.warmside"):
            sound(copy).close()
            copy.unlink()
        big.path.write_bytes(before)
