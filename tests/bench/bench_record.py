"""The record at a size that no keeper reaches: 300 animals, 10 years, 1,000,000 events.

Limits are ratios in one run: the round is
computed in at most 6 times the best hand-written query for the last event of each kind for each
animal; recording one event takes at most 1.2 times as long as in a small collection, with all
plugins twice as long, since two of them look at all that live together; CSV import
reaches at least an eighth of the rows per second of sqlite3's executemany into the same table;
the checksums of a record cost at most a twentieth of it.
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
from unittest import mock

from tests.bench.generated import EVENT_INSERT, event_rows
from tests.bench.measured import Work, hold, hold_ratio, timed

from warmside.core.asking.rounds.round_told import told_round
from warmside.core.file.copies.daily import daily
from warmside.core.kinds.kind import Subject
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.plugins.discovery import BUILT_IN
from warmside.core.record import sums
from warmside.testing import NOON, Keeper, copy_of

ROUNDS = 15
PAIRS = 60
ROWS = 50_000
COLUMNS = ("--kind", "weighed", "--date-format", "YYYY-MM-DD HH:mm")
ANIMAL_KINDS = tuple(k.name for k in SHARED_KINDS if k.subject is not Subject.ENCLOSURE)
BEST_QUERY = (
    f"WITH k(kind) AS (VALUES {', '.join(f'({name!r})' for name in ANIMAL_KINDS)}) "
    "SELECT e.id, e.kind, e.animal_id, e.day, e.at, e.data FROM animal a CROSS JOIN k "
    "JOIN event e ON e.id = (SELECT x.id FROM event x WHERE x.animal_id = a.id "
    "AND x.kind = k.kind AND x.replaced_by IS NULL ORDER BY x.day DESC, x.at DESC LIMIT 1)"
)


def test_the_round_of_a_large_collection(large: Keeper) -> None:
    collection = large.open()

    def todays_round() -> object:
        with collection.ask(large.now) as ask:
            return told_round(ask, ask.book.today)

    def by_hand() -> object:
        with closing(sqlite3.connect(large.path)) as connection:
            return connection.execute(BEST_QUERY).fetchall()

    hold_ratio("round of 300, core alone, to the best query", todays_round, by_hand, 6, ROUNDS)


def test_recording_does_not_depend_on_the_size(
    large: Keeper, small: Keeper, tmp_path: Path
) -> None:
    number = count(1)
    getattr(os, "sync", bool)()  # what was generated is not to be written while this is measured

    def record(keeper: Keeper) -> Callable[[], object]:
        return lambda: keeper.run("record", "weighed", "A3=412g", "--note", str(next(number)))

    hold_ratio("record one event, large to small", record(large), record(small), 1.2, ROUNDS)
    most = with_all_plugins(large, tmp_path / "large")
    least = with_all_plugins(small, tmp_path / "small")
    name = "record one event with all plugins, large to small"
    hold_ratio(name, record(most), record(least), 2, ROUNDS)


def test_importing_a_spreadsheet(large: Keeper, tmp_path: Path) -> None:
    made = islice(event_rows(300, NOON - timedelta(days=2000)), 300, None)
    rows = list(islice((r for r in made if r[0] == "weighed"), ROWS))
    bare, copy = (Path(shutil.copy(large.path, tmp_path / n)) for n in ("bare.db", "copy.db"))
    keeper = Keeper(copy, large.now)
    daily(keeper.path, keeper.now.date())  # made once a day, by whatever writes first
    times = []
    for number in range(3):
        table = tmp_path / f"weights-{number}.csv"
        lines = [f"{r[3]} 07:3{number},A{r[1]},{412 + n % 90}" for n, r in enumerate(rows)]
        table.write_text("\n".join(["date,animal,mass_g", *lines]) + "\n")
        ours = timed(partial(keeper.run, "import", str(table), *COLUMNS))
        times.append((ours, timed(partial(by_hand, bare, rows))))
    ours, base = (statistics.median(t) for t in zip(*times, strict=True))
    words = f"{ROWS / ours:.0f} rows/s to {ROWS / base:.0f} rows/s"
    hold("CSV import to executemany", ours / base, 8, words)


def with_all_plugins(keeper: Keeper, folder: Path) -> Keeper:
    """The same collection with every plugin at work, as it is after a first event."""
    copied = copy_of(keeper, folder)
    for name in sorted(BUILT_IN):
        copied.run("plugin", "enable", name, ok=False)  # some are at work already
    copied.run("record", "weighed", "A3=411g")
    return copied


def by_hand(path: Path, rows: list[tuple[Any, ...]]) -> None:
    """The same rows by plain executemany, with the same promise that they are on the disk."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA synchronous = FULL")
        connection.executemany(EVENT_INSERT, rows)
        connection.commit()


def test_checksums_cost_little_of_a_record(demo: Keeper, small: Keeper, tmp_path: Path) -> None:
    """Beside the same record that writes none: whole, and what the processor is busy for.

    The floor's file is a copy, for what it writes has no checksum and is rightly found fault with.
    """
    for name, keeper, animal in (("demo", demo, "RUS"), ("small", small, "A3")):
        bare = copy_of(keeper, tmp_path / name)
        for clock, of in ((time.perf_counter, "whole"), (time.process_time, "processor")):
            summed, unsummed = weighing(keeper, animal), without_sums(weighing(bare, animal))
            hold_ratio(f"record with checksums, {name}, {of}", summed, unsummed, 1.05, PAIRS, clock)


def weighing(keeper: Keeper, animal: str) -> Work:
    """Record one weighing, each with a note of its own."""
    number = count(1)
    return lambda: keeper.run("record", "weighed", f"{animal}=528g", "--note", str(next(number)))


def without_sums(work: Work) -> Work:
    """The work while no checksum is worked out, written or looked at."""

    def bare() -> None:
        with (
            mock.patch.object(sums, "row_sum", lambda *_: 0),
            mock.patch.object(sums, "sum_step", lambda *_: None),
            mock.patch.object(sums, "is_sealed", lambda *_: True),
            mock.patch.object(sums, "seal", lambda *_: None),
        ):
            work()

    return bare
