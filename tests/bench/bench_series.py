"""A series of 1,000,000 readings: written, taken back, put in force again, exported, imported.

The floor is sqlite3's executemany of the
same rows into the same table of the same file, in one transaction without foreign keys. Each work
is done in a process of its own, whose peak of memory is read at its end. Limits: writing takes at
most 3 times the floor, undo and redo less than 10 times the writing; at most 20 bytes a row; export
and import under 150 MB.
"""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

import pytest
from tests.bench.measured import hold

from readings import READINGS, make_tables
from warmside.core.file.copies.daily import daily
from warmside.testing import Keeper, new_keeper

ROWS, SENSORS = 1_000_000, 10
EARLIER_STEPS = 1000  # so that the number of the step takes as many bytes as after years
FLOOR = """
connection = sqlite3.connect(path, isolation_level=None)
connection.execute("PRAGMA synchronous = FULL")
connection.execute("BEGIN IMMEDIATE")
connection.executemany("INSERT INTO logger_reading VALUES (?, ?, ?, 1000)", rows)
connection.execute("COMMIT")
"""
WRITE = """
with keeper.open().step("read the logger", keeper.now) as writer:
    found = writer.insert_many(readings.READINGS, rows, on_same="skip")
assert found.new == len(rows)
"""
MOVE = "keeper.open().{}(keeper.now)"
EXPORT = "writing.export(path, path.with_name('all.zip'), keeper.now)"
IMPORT = "Keeper(path.with_name('new.warmside')).run('file', 'import', path.with_name('all.zip'))"
AROUND = """
import sqlite3, sys, time
from pathlib import Path
import readings
from tests.bench.measured import peak_mb
from warmside.core.file.archives import writing
from warmside.testing import Keeper
path = Path({path!r})
keeper = Keeper(path)
rows = list(readings.readings({rows}, {sensors}))
started = time.perf_counter()
{work}
spent = time.perf_counter() - started
print(spent, peak_mb())
"""


class Spent(NamedTuple):
    """What a work took."""

    seconds: float
    peak_mb: float


def spent(path: Path, work: str, rows: int = 0) -> Spent:
    """Do the work in a process of its own, which makes so many rows before."""
    code = AROUND.format(path=str(path), rows=rows, sensors=SENSORS, work=work)
    environment = Keeper(path).environment | {"PYTHONPATH": ":".join(p for p in sys.path if p)}
    done = subprocess.run(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, env=environment, check=True
    )
    seconds, peak_mb = done.stdout.split()
    return Spent(float(seconds), float(peak_mb))


@pytest.fixture(scope="module")
def logger(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Keeper]:
    """A collection with ten sensors and some thousand steps, today's backup made."""
    folder = tmp_path_factory.mktemp("series")
    keeper = new_keeper(folder)
    make_tables(keeper.path, SENSORS)
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.executemany(
            "INSERT INTO step (at, kind, words) VALUES ('2026-01-01T00:00:00Z', 'do', 'earlier')",
            [()] * EARLIER_STEPS,
        )
    daily(keeper.path, keeper.now.date())
    yield keeper
    shutil.rmtree(folder)  # a quarter of a gigabyte


def test_writing_and_moving_a_million_readings(logger: Keeper) -> None:
    bare = logger.path.with_name("bare.warmside")
    shutil.copy(logger.path, bare)
    before = logger.path.stat().st_size
    floor = spent(bare, FLOOR, ROWS)
    bare.unlink()
    written = spent(logger.path, WRITE, ROWS)
    bytes_a_row = (logger.path.stat().st_size - before) / ROWS
    undone = spent(logger.path, MOVE.format("undo"))
    redone = spent(logger.path, MOVE.format("redo"))
    words = f"{ROWS / written.seconds:,.0f} rows/s to {ROWS / floor.seconds:,.0f} rows/s"
    hold("series of 1,000,000 to executemany", written.seconds / floor.seconds, 3, words)
    hold("series, bytes a row in the file", bytes_a_row, 20)
    for name, moved in (("undo", undone), ("redo", redone)):
        words = f"peak {moved.peak_mb:.0f} MB"
        hold(f"series, {name} to the writing", moved.seconds / written.seconds, 10, words)


def test_exporting_and_importing_a_million_readings(logger: Keeper) -> None:
    for name, work in (("export", EXPORT), ("import", IMPORT)):
        took = spent(logger.path, work)
        hold(f"series, {name}, MB", took.peak_mb, 150, f"{ROWS / took.seconds:,.0f} rows/s")
    with closing(sqlite3.connect(logger.path.with_name("new.warmside"))) as connection:
        query = f"SELECT count(*) FROM {READINGS.name}"
        assert connection.execute(query).fetchone() == (ROWS,)
