"""A large collection for the benches: as many animals, years and events as are asked for.

Made by plain executemany into the real tables, one step a day, events in the order of time; what
is made is invented and looks the same each time.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import islice
from pathlib import Path
from typing import Any

from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.record.steps import data_text
from warmside.testing import Keeper, new_keeper

ANIMALS, YEARS, EVENTS = 300, 10, 1_000_000
EVENT_INSERT = (
    "INSERT INTO event (kind, animal_id, enclosure_id, day, at, zone, data, note, step_id) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, '', ?)"
)
# kind, every how many days, whether its time is known, whether it is about the enclosure, data
RHYTHMS: tuple[tuple[str, int, bool, bool, dict[str, Any]], ...] = (
    ("observed", 3, True, False, {"what": "calm, tongue flicks"}),
    ("defecated", 6, False, False, {"looks": "normal"}),
    ("fed", 7, True, False, {"item": "mouse", "count": 1, "mass_g": 24.0, "form": "thawed"}),
    ("weighed", 7, True, False, {"mass_g": 412.0}),
    ("cleaned", 30, False, True, {"extent": "full"}),
    ("watered", 36, False, True, {}),
    ("shedding", 40, False, False, {"stage": "opaque"}),
    ("shed", 41, False, False, {"outcome": "one piece"}),
    ("measured", 60, False, False, {"total_mm": 980.0}),
)


def generated(
    folder: Path,
    *,
    animals: int = ANIMALS,
    years: int = YEARS,
    events: int = EVENTS,
    plugins: Sequence[str] = (),
) -> Keeper:
    """A keeper of that many animals, each in its enclosure, with this day's backup made."""
    folder.mkdir(parents=True, exist_ok=True)
    keeper = new_keeper(folder)
    first = keeper.now - timedelta(days=365 * years)
    with closing(sqlite3.connect(keeper.path)) as connection:
        _animals(connection, animals)
        days = [(n + 1, (first + timedelta(days=n)).date()) for n in range(365 * years)]
        steps = [(n, f"{day}T18:00:00Z", "do", f"the round of {day}") for n, day in days]
        connection.executemany("INSERT INTO step (id, at, kind, words) VALUES (?, ?, ?, ?)", steps)
        connection.executemany(EVENT_INSERT, islice(event_rows(animals, first, years), events))
        connection.commit()
    for name in plugins:
        keeper.run("plugin", "enable", name)
    keeper.run("record", "observed", "A1", "--what", "the day's first write makes its backup")
    return keeper


def _animals(connection: sqlite3.Connection, animals: int) -> None:
    connection.executemany(
        "INSERT INTO enclosure (id, code, name, room, note, retired) VALUES (?, ?, ?, ?, '', 0)",
        [(n, f"E{n}", f"Enclosure {n}", f"room {n % 5}") for n in range(1, animals + 1)],
    )
    connection.executemany(
        "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, origin, note) "
        "VALUES (?, ?, ?, ?, 'female', 'probed', '2015-06', '', '')",
        [(n, f"A{n}", f"Animal {n}", 1 + n % 8) for n in range(1, animals + 1)],
    )


def event_rows(animals: int, first: datetime, years: int = 1000) -> Iterator[tuple[Any, ...]]:
    """Rows of EVENT_INSERT, day after day: all animals are entered, then cared for."""
    start = first.date().isoformat()
    for n in range(1, animals + 1):
        yield ("kept", n, n, start, None, None, '{"source":"bred here"}', 1)
    kinds = {k.name: k for k in SHARED_KINDS}
    rhythms = [(*r[:4], data_text(kinds[r[0]].validate(r[4]))) for r in RHYTHMS]
    for offset in range(365 * years):
        moment = (first + timedelta(days=offset)).astimezone(UTC)
        day, at = moment.date().isoformat(), moment.strftime("%Y-%m-%dT%H:%M:%SZ")
        for kind, every, timed, of_place, data in rhythms:
            for n in range(1 + (-offset) % every, animals + 1, every):
                when = (at, "Europe/Vienna") if timed else (None, None)
                who = (None, n) if of_place else (n, None)
                yield (kind, *who, day, *when, data, offset + 1)
