"""A year of a collection of simulated enclosures, judged each evening by the real hooks.

Readings and events go into the file by plain SQL, as the command line would have written them. The
keeper does what the round asks for: within three days, in a fortnight of holidays not at all.
"""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from tests.bench.enclosures.climates import day_of
from tests.bench.enclosures.kept import Kept

from warmside.api import Ask, Book, Finding, Task
from warmside.core.file.reading import snapshot
from warmside.core.record.steps import data_text
from warmside.testing import new_keeper

START = date(2025, 3, 1)
DAYS = 365
HISTORY_DAYS = 30
"""So long before the first judged day the loggers hang."""
HOLIDAYS = (170, 184)
"""Days, from the first, on which nobody is there but to give water."""
LATE_DAYS = 3
OPAQUE_DAYS = 7
ZONES = (("warm side", "air"), ("cool side", "air"), ("cool side", "humidity"))
EVENT = (
    "INSERT INTO event (kind, animal_id, enclosure_id, day, data, note, step_id) "
    "VALUES (?, ?, ?, ?, ?, '', 1)"
)
READING = "INSERT INTO habitat_reading VALUES (?, ?, ?, 1)"


@dataclass(frozen=True, slots=True)
class Day:
    """What was found on a day, counted from the first, and how many tasks stood open."""

    number: int
    findings: tuple[Finding, ...]
    tasks: tuple[Task, ...]


@dataclass
class Replayed:
    """A year of enclosures; each is numbered from 1, as its animal is."""

    kept: Sequence[Kept]
    onset: Sequence[int | None]
    days: list[Day] = field(default_factory=list)
    done: list[Task] = field(default_factory=list)


def replayed(kept: Sequence[Kept], seed: int, folder: Path, days: int = DAYS) -> Replayed:
    """The days of a collection that holds these enclosures, one animal in each."""
    return _Replay(kept, seed, folder).run(days)


class _Replay:
    def __init__(self, kept: Sequence[Kept], seed: int, folder: Path) -> None:
        self._rng = random.Random(f"enclosures {seed}")
        self._keeper = new_keeper(folder, plugins=("habitat", "shed"))
        self._host = self._keeper.open().host
        with self._keeper.ask() as ask:
            self._zone = ask.book.home.zone
        self._db = sqlite3.connect(self._keeper.path, isolation_level=None)
        self._db.execute("PRAGMA synchronous=OFF")
        onset = [self._rng.randrange(40, 200) if k.fault else None for k in kept]
        self._done = Replayed(kept, onset)
        self._unread: dict[int, list[tuple[int, int, int]]] = {n: [] for n in self._numbers}
        self._next_shed = {n: self._rng.randrange(5, 40) for n in self._numbers}
        self._at: dict[tuple[int, str], int] = {}

    @property
    def _numbers(self) -> Sequence[int]:
        return range(1, len(self._done.kept) + 1)

    def run(self, days: int) -> Replayed:
        with closing(self._db):
            self._enter()
            for number in range(-HISTORY_DAYS, days):
                self._live(number)
                if number >= 0:
                    self._judge(number)
        return self._done

    def _enter(self) -> None:
        species = dict(self._db.execute("SELECT scientific, id FROM species"))
        since = (START - timedelta(days=HISTORY_DAYS)).isoformat()
        for n, kept in zip(self._numbers, self._done.kept, strict=True):
            self._db.execute(
                "INSERT INTO enclosure (id, code, name, room, note, retired) "
                "VALUES (?, ?, ?, 'room', '', 0)",
                (n, f"E{n}", kept.scenario),
            )
            self._db.execute(
                "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, "
                "origin, note) VALUES (?, ?, ?, ?, 'female', '', '2021-06-01', '', '')",
                (n, f"A{n}", kept.scenario, species[kept.species]),
            )
            self._write("kept", n, n, -HISTORY_DAYS, {})
            self._describe(n, -HISTORY_DAYS)
            self._db.execute(
                "INSERT INTO habitat_logger (id, enclosure_id, name, time_column, date_order, "
                "clock, every_days, since, read_on) VALUES (?, ?, ?, 't', 'ymd', 'wall', 7, ?, ?)",
                (n, n, f"logger {n}", since, since),
            )
            for place, (zone, measure) in enumerate(ZONES):
                self._db.execute(
                    "INSERT INTO habitat_probe (id, logger_id, column_name, zone, measure, "
                    "fahrenheit, offset, checked) VALUES (?, ?, ?, ?, ?, 0, 0, ?)",
                    (3 * n + place, n, f"c{place}", zone, measure, since),
                )

    def _describe(self, n: int, number: int) -> None:
        day = self._day(number).isoformat()
        self._db.execute(
            "INSERT INTO habitat_description (enclosure_id, since, text) VALUES (?, ?, ?)",
            (n, day, self._done.kept[n - 1].text(day)),
        )

    def _live(self, number: int) -> None:
        """What happens on a day, and what the keeper does of what is asked for."""
        self._db.execute("BEGIN")
        for n, kept in zip(self._numbers, self._done.kept, strict=True):
            self._log(n, kept, number)
            self._shed(n, kept, number)
            self._meter(n, kept, number)
        for n, task in list(self._asked):
            self._maybe(n, task, number)
        if number < 0 and number % 7 == 0:
            for n in self._numbers:
                self._read_out(n, number)
        self._db.execute("COMMIT")

    _asked: Sequence[tuple[int, Task]] = ()

    def _fault(self, n: int, number: int) -> str:
        onset = self._done.onset[n - 1]
        return self._done.kept[n - 1].fault if onset is not None and number >= onset else ""

    def _log(self, n: int, kept: Kept, number: int) -> None:
        """The logger's readings of the day; they lie in it until it is read out."""
        day, fault = self._day(number), self._fault(n, number)
        if fault == "silent":
            return
        begin, end = (
            int(datetime.combine(d, time.min, self._zone).timestamp())
            for d in (day, day + timedelta(days=1))
        )
        battery = self._rng.randrange(24 * 60) if self._rng.random() < 0.005 else -1000
        for minute, *values in day_of(self._rng, kept.climate, day, fault, self._cooled(n, number)):
            if 0 <= minute - battery < 360 or begin + 60 * minute >= end:
                continue
            for place, value in enumerate(values):
                row = (3 * n + place, begin + 60 * minute, round(1000 * value))
                self._unread[n].append(row)

    def _cooled(self, n: int, number: int) -> bool:
        """Whether it rests, December to the ninth of February; both ends are written down."""
        day = self._day(number)
        if not self._done.kept[n - 1].cooled:
            return False
        state = {(12, 1): "begun", (2, 10): "ended"}.get((day.month, day.day))
        if state:
            self._write("cooling", n, None, number, {"state": state})
        return day.month in (12, 1) or (day.month == 2 and day.day < 10)

    def _shed(self, n: int, kept: Kept, number: int) -> None:
        """Opaque a week before each shed, about as often as its kind sheds."""
        if number == self._next_shed[n] - OPAQUE_DAYS:
            self._write("shedding", n, None, number, {"stage": "opaque"})
        if number == self._next_shed[n]:
            self._write("shed", n, None, number, {"outcome": "one piece"})
            self._next_shed[n] += round(kept.sheds * self._rng.uniform(0.8, 1.25))

    def _meter(self, n: int, kept: Kept, number: int) -> None:
        """A UV meter is held under the lamp about each quarter."""
        if kept.uv_index is not None and number % 90 == 10:
            fading = 0.3 if self._fault(n, number) == "worn" else self._rng.uniform(0.8, 1.15)
            data = {"zone": "basking place", "uv_index": round(kept.uv_index * fading, 1)}
            self._write("habitat.read", None, n, number, data)

    def _maybe(self, n: int, task: Task, number: int) -> None:
        """Do what is asked for, as soon as the keeper comes to it."""
        key = n, task.what
        if HOLIDAYS[0] <= number < HOLIDAYS[1] and task.settles != "watered":
            return
        if task.settles == "watered" or task.settles == "misted":
            due = number
        else:
            due = self._at.setdefault(key, number + self._rng.randrange(LATE_DAYS + 1))
        if number < due or ("logger" in task.data and self._fault(n, number) == "unread"):
            return
        self._at.pop(key, None)
        self._done.done.append(task)
        self._do(n, task, number)

    def _do(self, n: int, task: Task, number: int) -> None:
        day = self._day(number).isoformat()
        if task.settles:
            self._write(task.settles, None, n, number, dict(task.data))
        elif "logger" in task.data:
            self._read_out(n, number)
        elif "probe" in task.data:
            where = (day, task.data["probe"])
            self._db.execute("UPDATE habitat_probe SET checked = ? WHERE id = ?", where)
        elif "lamp" in task.data:
            self._describe(n, number)

    def _read_out(self, n: int, number: int) -> None:
        day = self._day(number).isoformat()
        self._db.executemany(READING, self._unread[n])
        self._unread[n] = []
        self._db.execute("UPDATE habitat_logger SET read_on = ? WHERE id = ?", (day, n))

    def _judge(self, number: int) -> None:
        host, day = self._host.renewed(), self._day(number)
        with snapshot(self._keeper.path) as connection:
            moment = datetime.combine(day, time(20), self._zone)
            ask = Ask(Book(connection, moment), host)
            mine = tuple(f for f in ask.findings(day) if f.code.startswith("habitat."))
            tasks = tuple(t for plugin, t in ask.tasks(day) if plugin == "habitat")
        assert not host.failures, host.failures
        self._asked = [(t.about.enclosure_id or 0, t) for t in tasks]
        self._done.days.append(Day(number, mine, tasks))

    def _write(
        self,
        kind: str,
        animal: int | None,
        enclosure: int | None,
        number: int,
        data: dict[str, Any],
    ) -> None:
        text = data_text(self._host.kinds.named(kind).validate(data))
        when = self._day(number).isoformat()
        self._db.execute(EVENT, (kind, animal, enclosure, when, text))

    def _day(self, number: int) -> date:
        return START + timedelta(days=number)
