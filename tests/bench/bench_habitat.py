"""Loggers: reading a file in, a year of minutes drawn together, and the round beside it.

Limits: 1,000,000 readings of a file, parsed and written, at no less than 1/6 of the speed of plain
`executemany` of ready rows into the same table; a year of one-minute readings in six zones
summarised in at most 3 times what NumPy takes for the plain statistics of the same columns, in
under 300 MB; the round with that year at most 1.1 times what it costs without.
"""

from __future__ import annotations

import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from tests.bench.measured import hold, hold_ratio

from warmside.plugins.habitat.reading.zones_here import measured
from warmside.testing import Keeper, new_keeper

ROWS, ZONES, MINUTES = 1_000_000, 6, 525_600
NOW = datetime(2026, 3, 5, 12, tzinfo=UTC)
INSERT = 'INSERT INTO habitat_reading (probe_id, at, value, "step_id") VALUES (?, ?, ?, 1)'

AND_ITS_PEAK = """
import sys
from tests.bench.measured import peak_mb
from warmside.cli.entry import main
code = main(sys.argv[1:])
print(peak_mb(), file=sys.stderr)
sys.exit(code)
"""


@pytest.fixture(scope="module")
def hung(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A snake in an enclosure with a logger of six zones and one of one zone."""
    keeper = new_keeper(tmp_path_factory.mktemp("hung"), plugins=["habitat"], now=NOW)
    keeper.run("enclosure", "add", "Shelf", "--code", "SHE")
    keeper.run("animal", "add", "Ember", "--species", "corn snake", "--enclosure", "SHE")
    zones = [x for n in range(ZONES) for x in ("--probe", f"T{n}=zone {n}")]
    keeper.run("habitat", "logger", "SHE", "grey", *zones)
    keeper.run("habitat", "logger", "SHE", "blue", "--probe", "T=hide", "--clock", "utc")
    return keeper


@pytest.fixture(scope="module")
def year(hung: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The same with a year of minutes in six zones."""
    folder = tmp_path_factory.mktemp("year")
    keeper = Keeper(Path(shutil.copy(hung.path, folder)), NOW)
    first = int(NOW.timestamp()) - 60 * MINUTES
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        step = step_column(connection)
        for probe in range(1, ZONES + 1):
            rows = ((probe, first + 60 * n, 24_000 + (n * probe) % 7000) for n in range(MINUTES))
            connection.executemany(INSERT.replace("step_id", step), rows)
    return keeper


def step_column(connection: sqlite3.Connection) -> str:
    """The name of the column that says which step wrote a row."""
    names = [row[1] for row in connection.execute("PRAGMA table_info(habitat_reading)")]
    return next(n for n in names if n not in ("probe_id", "at", "value"))


def file_rows(count: int) -> Iterator[tuple[str, int, int]]:
    begin = datetime(2024, 3, 5, 1)
    for n in range(count):
        at = begin + timedelta(minutes=n)
        yield f"{at:%Y-%m-%d %H:%M}", int(at.replace(tzinfo=UTC).timestamp()), 24_000 + n % 7000


def test_a_million_rows(hung: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "log.csv"
    with file.open("w") as out:
        out.write("time,T\n")
        out.writelines(f"{text},{value / 1000}\n" for text, _, value in file_rows(ROWS))
    keeper = Keeper(Path(shutil.copy(hung.path, tmp_path)), NOW)
    bare = Path(shutil.copy(hung.path, tmp_path / "bare.db"))
    ready = [(ZONES + 1, at, value) for _, at, value in file_rows(ROWS)]
    with closing(sqlite3.connect(bare)) as connection:
        statement = INSERT.replace("step_id", step_column(connection))
        began = time.perf_counter()
        with connection:
            connection.executemany(statement, ready)
        floor = time.perf_counter() - began
    began = time.perf_counter()
    keeper.run("habitat", "read", "blue", file)
    spent = time.perf_counter() - began
    words = f"{spent:.1f} s to {floor:.1f} s"
    hold("habitat: a file of 1,000,000 rows to executemany", spent / floor, 6, words)


def test_a_year_of_minutes(year: Keeper) -> None:
    import numpy as np

    collection = year.open()
    first, last = date(2025, 3, 5), date(2026, 3, 5)

    def ours() -> object:
        with collection.ask(NOW) as ask:
            return measured(ask, 1, first, last)

    def plain() -> object:
        found = []
        query = "SELECT at, value FROM habitat_reading WHERE probe_id = ? ORDER BY at"
        with closing(sqlite3.connect(year.path)) as connection:
            for probe in range(1, ZONES + 1):
                rows = np.fromiter(connection.execute(query, (probe,)), dtype="i8,i8")
                values = rows["f1"] / 1000
                by_day = rows["f0"] % 86400 < 43200
                for part in (values, values[by_day], values[~by_day]):
                    found.append((part.min(), np.median(part), part.max()))
        return found

    hold_ratio("habitat: a year of minutes in six zones to NumPy", ours, plain, 3, 3)
    asked = ("habitat", "zones", "SHE", "--last", "366")
    done = year.run_apart(*asked, program=("-c", AND_ITS_PEAK))
    assert done.code == 0, done.stderr
    most = float(done.stderr.splitlines()[-1])
    hold("habitat: memory of a process that does it, MB", most, 300)


def test_the_round_beside_a_year(year: Keeper, hung: Keeper) -> None:
    year.run("today"), hung.run("today")
    name = "habitat: the round with a year of readings"
    hold_ratio(name, lambda: year.run_apart("today"), lambda: hung.run_apart("today"), 1.1, 9)
