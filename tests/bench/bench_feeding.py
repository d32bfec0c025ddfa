"""Feeding for 300 animals: the plan of all against the years on record, and its share of a round.

The collection is invented and written
straight into the file. Limits: ten years of meals cost at most 1.3 times one year, and the plugin
adds to the round, `warmside today` in its own process, at most twice what that costs without it.
"""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

from tests.bench.measured import hold, hold_ratio, medians

from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.plans import all_parts
from warmside.testing import Keeper, copy_of, new_keeper

ANIMALS = 300
YEARS_LIMIT, ROUND_LIMIT = 1.3, 2.0
RUNS = 7
Row = tuple[str, int | None, int | None, str, str]
# Species, days between meals, food, count, mass in g: two snakes to one gecko.
KINDS = (
    ("Python regius", 10, "small rat", 1, 1300.0),
    ("Lampropeltis californiae", 8, "adult mouse", 2, 620.0),
    ("Eublepharis macularius", 3, "adult cricket", 5, 58.0),
)


def collection(folder: Path, years: int) -> Keeper:
    """A keeper of 300 animals with so many years of meals, weights, water and climate."""
    folder.mkdir()
    keeper = new_keeper(folder, plugins=["feeding"])
    today = keeper.now.date()
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        _animals(connection)
        rows = sorted(_events(today, years), key=_day)
        connection.executemany(
            "INSERT INTO event (kind, animal_id, enclosure_id, day, data, note, step_id) "
            "VALUES (?, ?, ?, ?, ?, '', 1)",
            rows,
        )
        connection.executemany(
            "INSERT INTO feeding_lot (prey, count, since, frozen, price) VALUES (?, ?, ?, ?, 1.5)",
            [
                (prey, 1200, day.isoformat(), day.isoformat())
                for prey in ("rat-small", "mouse-adult")
                for day in _days(today, years, 90)
            ],
        )
    keeper.run("feeding", "stock", "add", "rat-small", "500")
    return keeper


def _animals(connection: sqlite3.Connection) -> None:
    known = connection.execute("SELECT scientific, id FROM species")
    ids = {str(name): int(id) for name, id in known}
    connection.executemany(
        "INSERT INTO enclosure (id, code, name, room, note, retired) VALUES (?, ?, ?, ?, '', 0)",
        [(n, f"B{n}", f"Box {n}", f"room {n % 6}") for n in range(1, ANIMALS + 1)],
    )
    connection.executemany(
        "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, origin, note) "
        "VALUES (?, ?, ?, ?, 'unknown', 'not known', '', '', '')",
        [(n, f"A{n}", f"Animal {n}", ids[_kind(n)[0]]) for n in range(1, ANIMALS + 1)],
    )


def _kind(n: int) -> tuple[str, int, str, int, float]:
    return KINDS[n % len(KINDS)]


def _day(row: Row) -> str:
    return row[3]


def _days(today: date, years: int, every: int, offset: int = 0) -> Iterator[date]:
    day = today - timedelta(days=365 * years - offset)
    while day <= today:
        yield day
        day += timedelta(days=every)


def _events(today: date, years: int) -> Iterator[Row]:
    start = today - timedelta(days=365 * years)
    for n in range(1, ANIMALS + 1):
        _, every, item, count, mass = _kind(n)
        yield ("kept", n, n, start.isoformat(), json.dumps({"source": ""}))
        for k, day in enumerate(_days(today, years, every, n % every)):
            outcome = "refused" if (k + n) % 17 == 0 else "taken"
            data = {"item": item, "count": count, "mass_g": None, "form": None, "outcome": outcome}
            yield ("fed", n, None, day.isoformat(), json.dumps(data))
        for day in _days(today, years, 30, n % 30):
            yield ("weighed", n, None, day.isoformat(), json.dumps({"mass_g": mass + n % 40}))
        for day in _days(today, years, 7, n % 7):
            yield ("watered", None, n, day.isoformat(), "{}")
            data = {"warm_c": 31.0, "cool_c": 25.0, "humidity_percent": None}
            yield ("climate", None, n, day.isoformat(), json.dumps(data))


def plan_all(keeper: Keeper) -> None:
    """The plan of all animals, each time from a new snapshot."""
    with keeper.ask() as ask:
        reading = Reading(ask, ask.book.today)
        table, _ = all_parts(reading, tuple(ask.book.animals_here()))
    assert len(table.rows) == ANIMALS


def today(keeper: Keeper) -> None:
    """`warmside today` as a keeper runs it, in a process of its own."""
    environment = {
        **os.environ,
        "WARMSIDE_COLLECTION": str(keeper.path),
        "WARMSIDE_NOW": keeper.now.isoformat(),
        "XDG_CACHE_HOME": str(keeper.path.parent / "cache"),
    }
    command = [sys.executable, "-m", "warmside", "today", "--json"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)


def test_ten_years_cost_hardly_more_than_one(tmp_path: Path) -> None:
    one, ten = (collection(tmp_path / str(years), years) for years in (1, 10))
    name = "feeding plan of 300, ten years to one"
    hold_ratio(name, lambda: plan_all(ten), lambda: plan_all(one), YEARS_LIMIT, RUNS)


def test_what_feeding_adds_to_a_round(tmp_path: Path) -> None:
    ten = collection(tmp_path / "10", 10)
    bare = copy_of(ten, tmp_path / "bare")
    bare.run("plugin", "disable", "feeding")
    full, without = medians(lambda: today(ten), lambda: today(bare), runs=RUNS)
    words = f"{1000 * full:.0f} ms, without it {1000 * without:.0f} ms"
    hold("feeding adds to today of 300", full / without - 1, ROUND_LIMIT, words)
