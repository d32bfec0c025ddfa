"""A collection of simulated animals, written week by week and judged by the real hooks.

Events go into the file by plain SQL, each week in one transaction, as the command line would have
written them; each week's end is a snapshot of its own, of which findings and tasks are asked. The
keeper weighs when the round asks for it: within four days, or now and then (FORGETS) a week late.
"""

from __future__ import annotations

import random
import sqlite3
from collections import defaultdict
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from tests.bench.alarms.lives import START, WEEKS, Life, Said

from warmside.api import About, Ask, Doubtful, Estimate, Finding, NewEvent
from warmside.core.file.reading import snapshot
from warmside.core.plugins.host import Host
from warmside.core.record.book import Book
from warmside.core.record.steps import data_text
from warmside.testing import new_keeper

PLUGINS = ("feeding", "quarantine", "rhythm", "shed", "signs", "weight")
FORGETS = 0.15
HORIZONS = (0, 30, 60)
INSERT = (
    "INSERT INTO event (kind, animal_id, enclosure_id, day, data, note, step_id) "
    "VALUES (?, ?, ?, ?, ?, '', 1)"
)


@dataclass(frozen=True, slots=True)
class Week:
    """What was said at the end of a week; `on` is its last day."""

    on: int
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Guess:
    """What was expected of an animal so many days after a weighing, and what it truly weighed."""

    life: int
    horizon: int
    low: float
    high: float
    true_g: float


@dataclass
class Replayed:
    """A year of a collection; animals are numbered from 1 in the order of `lives`."""

    lives: Sequence[Life]
    weeks: list[Week] = field(default_factory=list)
    guesses: list[Guess] = field(default_factory=list)
    asked_back: list[tuple[int, int, str]] = field(default_factory=list)
    weighed: int = 0


def replayed(lives: Sequence[Life], seed: int, folder: Path, weeks: int = WEEKS) -> Replayed:
    """The weeks of a collection that holds these animals, each in an enclosure of its own."""
    return _Replay(lives, seed, folder).run(weeks)


class _Replay:
    def __init__(self, lives: Sequence[Life], seed: int, folder: Path) -> None:
        self._rng = random.Random(f"replay {seed}")
        self._keeper = new_keeper(folder, plugins=PLUGINS)
        self._host = self._keeper.open().host
        self._db = sqlite3.connect(self._keeper.path, isolation_level=None)
        self._db.execute("PRAGMA synchronous=OFF")
        self._done = Replayed(lives)
        self._species = dict(self._db.execute("SELECT scientific, id FROM species"))

    def run(self, weeks: int) -> Replayed:
        with closing(self._db):
            self._enter()
            self._write(self._history())
            for week in range(weeks):
                self._judge(START + 7 * week + 6)
        return self._done

    def _enter(self) -> None:
        for id, life in enumerate(self._done.lives, 1):
            self._db.execute(
                "INSERT INTO enclosure (id, code, name, room, note, retired) "
                "VALUES (?, ?, ?, 'room', '', 0)",
                (id, f"E{id}", f"Enclosure {id}"),
            )
            hatched = life.hatched.isoformat() if life.hatched else ""
            self._db.execute(
                "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, "
                "origin, note) VALUES (?, ?, ?, ?, ?, '', ?, '', '')",
                (id, f"A{id}", life.scenario, self._species[life.species], life.sex, hatched),
            )

    def _history(self) -> Iterator[tuple[int, Said]]:
        """What is on record before the first judged day, with the weighings of the past."""
        for id, life in enumerate(self._done.lives, 1):
            yield id, (life.first, life.came_by, {})
            day = life.first + self._rng.randrange(1, 4)
            while day < START:
                yield id, self._weighing(life, day)
                sway = life.history_every // 7
                day += life.history_every + self._rng.randint(-sway, 2 * sway)
        yield from self._said(0, START)

    def _said(self, first: int, last: int) -> Iterator[tuple[int, Said]]:
        for id, life in enumerate(self._done.lives, 1):
            yield from ((id, said) for said in life.said if first <= said[0] < last)

    def _weighing(self, life: Life, day: int) -> Said:
        return day, "weighed", {"mass_g": round(life.reading(self._rng, day), 2)}

    def _write(self, rows: Iterator[tuple[int, Said]]) -> list[int]:
        """Write rows in the order of days; the numbers of their events."""
        ids = []
        self._db.execute("BEGIN")
        for id, (day, kind, data) in sorted(rows, key=lambda row: row[1][0]):
            known = self._host.kinds.named(kind)
            if data.get("sample") == "the last":
                query = "SELECT max(id) FROM event WHERE kind = 'quarantine.sampled'"
                data = data | {"sample": self._db.execute(query).fetchone()[0]}
            about = {"animal": (id, None), "enclosure": (None, id)}.get(known.subject, (id, id))
            text = data_text(known.validate(data))
            when = date.fromordinal(day).isoformat()
            ids.append(self._db.execute(INSERT, (kind, *about, when, text)).lastrowid)
        self._db.execute("COMMIT")
        return [i for i in ids if i is not None]

    def _judge(self, on: int) -> None:
        weighings = [(id, self._weighing(self._done.lives[id - 1], d)) for id, d in self._due(on)]
        self._done.weighed += len(weighings)
        written = self._write(iter([*self._said(on - 6, on + 1), *weighings]))
        host = self._host.renewed()
        with snapshot(self._keeper.path) as connection:
            moment = datetime.combine(date.fromordinal(on), time(20), self._keeper.now.tzinfo)
            ask = Ask(Book(connection, moment), host)
            findings = tuple(ask.findings(date.fromordinal(on)))
            self._done.weeks.append(Week(on, findings))
            self._wanted = _weighings_asked(ask, on + 7)
            self._ask_back(ask, host, written)
            for id, (day, *_) in weighings:
                self._guess(ask, id, day)
        assert not host.failures, host.failures

    _wanted: Sequence[tuple[int, int]] = ()

    def _due(self, on: int) -> Iterator[tuple[int, int]]:
        """Who is weighed this week, and when: what the rounds of its days ask for."""
        for id, due in self._wanted:
            if self._rng.random() >= FORGETS:
                yield id, min(max(due, on - 6) + self._rng.randrange(4), on)

    def _ask_back(self, ask: Ask, host: Host, written: Sequence[int]) -> None:
        """What the command line would have asked back about, of the weighings of this week."""
        asked: dict[str, Any] = {"book": ask.book, "ask": ask, "confirmed": False}
        for event in map(ask.book.event, written):
            if event.kind == "weighed":
                try:
                    host.require("warmside_events_recorded", NewEvent, events=(event,), **asked)
                except Doubtful as doubt:
                    told = event.animal_id or 0, event.day.toordinal(), str(doubt)
                    self._done.asked_back.append(told)

    def _guess(self, ask: Ask, id: int, day: int) -> None:
        life = self._done.lives[id - 1]
        for ahead in HORIZONS:
            on = date.fromordinal(day + ahead)
            for answered in ask.answers("mass", About(id), on):
                given: Any = answered.given
                if answered.plugin == "weight" and isinstance(given, Estimate):
                    true_g = life.true_g(day + ahead)
                    self._done.guesses.append(Guess(id, ahead, given.low, given.high, true_g))


def _weighings_asked(ask: Ask, until: int) -> list[tuple[int, int]]:
    """The animals to be weighed up to a day, each with the day on which that is due."""
    tasks = [t for _, t in ask.tasks(date.fromordinal(until)) if t.settles == "weighed"]
    return sorted((t.about.animal_id or 0, t.due.toordinal()) for t in tasks)


def by_animal(week: Week) -> dict[int, list[Finding]]:
    """The findings of a week by animal; an enclosure's count for the one that lives in it."""
    found = defaultdict[int, list[Finding]](list)
    for one in week.findings:
        found[one.about.animal_id or one.about.enclosure_id or 0].append(one)
    return found
