"""The record at a size that no keeper reaches: 300 animals, 10 years, 1,000,000 events.

Run: python -m pytest -q -s tests/bench/bench_record.py. Limits are ratios in one run: the round is
computed in at most 6 times the best hand-written query for the last event of each kind for each
animal; recording one event takes at most 1.2 times as long as in a small collection; CSV import
reaches at least an eighth of the rows per second of sqlite3's executemany into the same table.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import statistics
import time
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from functools import partial
from itertools import count, islice
from pathlib import Path
from typing import Any

import pytest
from tests.bench.generated import EVENT_INSERT, event_rows, generated

from warmside.cli.commands.today import round_of, told_round
from warmside.core.file import backup
from warmside.core.kinds.kind import Subject
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.testing import NOON, Keeper

PLUGINS = ("quarantine", "rhythm")
ROUNDS = 15
ROWS = 50_000
COLUMNS = ("--kind", "weighed", "--date-format", "YYYY-MM-DD HH:mm")
ANIMAL_KINDS = tuple(k.name for k in SHARED_KINDS if k.subject is not Subject.ENCLOSURE)
BEST_QUERY = (
    f"WITH k(kind) AS (VALUES {', '.join(f'({name!r})' for name in ANIMAL_KINDS)}) "
    "SELECT e.id, e.kind, e.animal_id, e.day, e.at, e.data FROM animal a CROSS JOIN k "
    "JOIN event e ON e.id = (SELECT x.id FROM event x WHERE x.animal_id = a.id "
    "AND x.kind = k.kind AND x.replaced_by IS NULL ORDER BY x.day DESC, x.at DESC LIMIT 1)"
)


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    return generated(tmp_path_factory.mktemp("large"), plugins=PLUGINS)


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """About what the demo holds."""
    folder = tmp_path_factory.mktemp("small")
    return generated(folder, animals=7, years=3, events=2500, plugins=PLUGINS)


def timed(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def ratio(mine: Callable[[], object], bare: Callable[[], object]) -> tuple[float, float, float]:
    """Medians of both in seconds, taken in turn, and their ratio."""
    mine(), bare()
    pairs = [(timed(mine), timed(bare)) for _ in range(ROUNDS)]
    ours, base = (statistics.median(times) for times in zip(*pairs, strict=True))
    return ours, base, ours / base


def test_the_round_of_a_large_collection(large: Keeper) -> None:
    collection = large.open()

    def todays_round() -> object:
        with collection.read(large.now) as book:
            return told_round(book, book.today, round_of(book, book.today))

    def by_hand() -> object:
        with closing(sqlite3.connect(large.path)) as connection:
            return connection.execute(BEST_QUERY).fetchall()

    ours, base, times = ratio(todays_round, by_hand)
    print(f"\nround: {1000 * ours:.1f} ms, query: {1000 * base:.1f} ms, ratio {times:.2f} (<= 6)")
    assert times <= 6


def test_recording_does_not_depend_on_the_size(large: Keeper, small: Keeper) -> None:
    number = count(1)
    getattr(
        os, "sync", lambda: None
    )()  # what was generated must not be written while this is measured

    def record(keeper: Keeper) -> Callable[[], object]:
        return lambda: keeper.run("record", "weighed", "A3=412g", "--note", str(next(number)))

    ours, base, times = ratio(record(large), record(small))
    print(f"\nlarge: {1000 * ours:.1f} ms, small: {1000 * base:.1f} ms, ratio {times:.2f} (<= 1.2)")
    assert times <= 1.2


def test_importing_a_spreadsheet(large: Keeper, tmp_path: Path) -> None:
    made = islice(event_rows(300, NOON - timedelta(days=2000)), 300, None)
    rows = list(islice((r for r in made if r[0] == "weighed"), ROWS))
    bare, copy = (Path(shutil.copy(large.path, tmp_path / n)) for n in ("bare.db", "copy.db"))
    keeper = Keeper(copy, large.now)
    backup.daily(keeper.path, keeper.now.date())  # made once a day, by whatever writes first
    times = []
    for number in range(3):
        table = tmp_path / f"weights-{number}.csv"
        lines = [f"{r[3]} 07:3{number},A{r[1]},{412 + n % 90}" for n, r in enumerate(rows)]
        table.write_text("\n".join(["date,animal,mass_g", *lines]) + "\n")
        ours = timed(partial(keeper.run, "import", str(table), *COLUMNS))
        times.append((ours, timed(partial(by_hand, bare, rows))))
    ours, base = (statistics.median(t) for t in zip(*times, strict=True))
    print(
        f"\nimport: {ROWS / ours:.0f} rows/s, executemany: {ROWS / base:.0f} rows/s, "
        f"ratio 1/{ours / base:.1f} (at least 1/8)"
    )
    assert ours / base <= 8


def by_hand(path: Path, rows: list[tuple[Any, ...]]) -> None:
    """The same rows by plain executemany, with the same promise that they are on the disk."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA synchronous = FULL")
        connection.executemany(EVENT_INSERT, rows)
        connection.commit()
