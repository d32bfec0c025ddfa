"""The event log against a plain model: record, correct, undo, redo, reopening and failing steps.

The model is a list of steps with what each wrote; the record is what the steps in force give.
Animals, kinds, days and values come from tiny domains, so that ties and collisions do happen.
"""

from __future__ import annotations

import functools
import shutil
import tempfile
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TypeVar

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from warmside.core.plugins.host import Host
from warmside.core.record import tables, undo
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.entries import add_animal
from warmside.core.session.collection import Collection
from warmside.core.values.errors import NotFound, Refused
from warmside.testing import NOON, new_keeper

NUMBER = st.integers(0, 2)
KINDS = st.sampled_from(["weighed", "shed"])
DAYS = st.integers(0, 2).map(lambda n: date(2026, 3, 1) + timedelta(days=n))
HOURS = st.none() | st.integers(6, 8)
MASSES = st.sampled_from([100.0, 110.0])


T = TypeVar("T")


class Boom(Exception):
    """Something fails in the middle of a step."""


@dataclass
class Row:
    """An event as the model knows it."""

    id: int
    animal: int
    kind: str
    day: date
    at: datetime | None
    mass: float | None
    corrects: int | None = None


@dataclass
class Did:
    """A step as the model knows it; `names` are the animals that it entered or renamed."""

    id: int
    kind: str = "do"
    of: int | None = None
    undone_by: int | None = None
    rows: list[Row] = field(default_factory=list)
    names: dict[int, str] = field(default_factory=dict)
    entered: set[int] = field(default_factory=set)


def seen(events: list[Event]) -> list[tuple[object, ...]]:
    """What matters of events, in the order in which they came."""
    return [
        (e.id, e.animal_id, e.kind, e.day, e.at, e.data.get("mass_g"), e.replaced_by)
        for e in events
    ]


class EventLog(RuleBasedStateMachine):
    """Every way in which a keeper changes the record, checked after each."""

    @initialize()
    def start(self) -> None:
        self.folder = Path(tempfile.mkdtemp())
        self.path = self.folder / "test.warmside"
        self.path.write_bytes(empty_collection())
        self.steps: list[Did] = []
        self.now = NOON
        self.reopen()

    def teardown(self) -> None:
        if hasattr(self, "folder"):
            shutil.rmtree(self.folder)

    @rule()
    def reopen(self) -> None:
        self.collection = Collection(self.path, Host())

    # what the model says

    @property
    def in_force(self) -> list[Did]:
        return [s for s in self.steps if s.kind == "do" and s.undone_by is None]

    @property
    def animals(self) -> dict[int, str]:
        names: dict[int, str] = {}
        for step in self.in_force:
            names |= step.names
        return names

    @property
    def rows(self) -> list[Row]:
        return [r for s in self.in_force for r in s.rows]

    def replaced(self, row: Row) -> int | None:
        return next((r.id for r in self.rows if r.corrects == row.id), None)

    def expected(self, *, corrected: bool) -> list[tuple[object, ...]]:
        rows = [
            (r.id, r.animal, r.kind, r.day, r.at, r.mass, self.replaced(r))
            for r in sorted(self.rows, key=in_time)
        ]
        return [r for r in rows if corrected or r[-1] is None]

    def rests_on(self, step: Did) -> list[Did]:
        """Later steps in force that need what the step wrote."""
        made = {r.id for r in step.rows}
        return [
            later
            for later in self.in_force
            if later.id > step.id
            and (
                later.names.keys() & step.names.keys()
                or any(r.corrects in made for r in later.rows)
                or any(r.animal in step.entered for r in later.rows)
            )
        ]

    # what a keeper does

    @precondition(lambda self: len(self.animals) < 2)
    @rule(name=st.sampled_from(["Ada", "Bo"]))
    def enter(self, name: str) -> None:
        with self.collection.step("enter", self.now) as writer:
            animal = add_animal(writer, name, "Python regius")
        self.steps.append(Did(writer.id, names={animal.id: name}, entered={animal.id}))

    @precondition(lambda self: self.animals)
    @rule(number=NUMBER, name=st.sampled_from(["Ada", "Dot"]))
    def rename(self, number: int, name: str) -> None:
        animal = pick(list(self.animals), number)
        with self.collection.step("rename", self.now) as writer:
            writer.change(tables.animal, {"id": animal}, name=name)
        if self.animals[animal] != name:  # else the step leaves no trace
            self.steps.append(Did(writer.id, names={animal: name}))

    @precondition(lambda self: self.animals)
    @rule(
        number=NUMBER,
        kind=KINDS,
        day=DAYS,
        hour=HOURS,
        masses=st.lists(MASSES, min_size=1, max_size=2),
    )
    def record(
        self, number: int, kind: str, day: date, hour: int | None, masses: list[float]
    ) -> None:
        animal = pick(list(self.animals), number)
        with self.collection.step("record", self.now, confirmed=True) as writer:
            made = [writer.record(new(animal, kind, day, hour, m)) for m in masses]
        self.steps.append(Did(writer.id, rows=[row_of(e) for e in made]))

    @precondition(lambda self: self.animals)
    @rule(number=NUMBER, kind=KINDS, day=DAYS, count=st.integers(0, 2))
    def fail_half_way(self, number: int, kind: str, day: date, count: int) -> None:
        animal = pick(list(self.animals), number)
        with (
            pytest.raises(Boom),
            self.collection.step("fail", self.now, confirmed=True) as writer,
        ):
            for _ in range(count):
                writer.record(new(animal, kind, day, None, 100.0))
            writer.change(tables.animal, {"id": animal}, name="never seen")
            raise Boom

    @rule()
    def do_nothing(self) -> None:
        with self.collection.step("nothing", self.now):
            pass

    @precondition(lambda self: self.rows)
    @rule(number=st.integers(0, 5), day=DAYS, mass=MASSES)
    def correct(self, number: int, day: date, mass: float) -> None:
        old = pick(self.rows, number)
        replaced = self.replaced(old)
        with self.collection.read(self.now) as book:
            event = book.event(old.id)
        better = new(old.animal, old.kind, day, None, mass)
        if replaced is not None:
            with (
                pytest.raises(Refused, match=f"corrected already, by event {replaced}"),
                self.collection.step("correct", self.now, confirmed=True) as writer,
            ):
                writer.correct(event, better)
            return
        with self.collection.step("correct", self.now, confirmed=True) as writer:
            row = row_of(writer.correct(event, better))
        row.corrects = old.id
        self.steps.append(Did(writer.id, rows=[row]))

    @rule()
    def undo_the_last(self) -> None:
        if not self.in_force:
            with pytest.raises(NotFound, match="nothing to undo"):
                self.collection.undo(self.now)
            return
        step = self.in_force[-1]
        assert self.collection.step_to_undo().id == step.id
        assert self.collection.undo(self.now).id == step.id
        self._note_undo(step)

    @precondition(lambda self: len(self.in_force) > 1)
    @rule(number=st.integers(0, 5))
    def undo_one(self, number: int) -> None:
        step = pick(self.in_force, number)
        later = self.rests_on(step)
        if later:
            with pytest.raises(Refused, match=f"step {later[-1].id} .* rests on it"):
                self.collection.undo(self.now, step.id)
            return
        self.collection.undo(self.now, step.id)
        self._note_undo(step)

    def _note_undo(self, step: Did) -> None:
        undoing = Did(self._last_step(), "undo", of=step.id)
        step.undone_by = undoing.id
        self.steps.append(undoing)

    @rule()
    def redo(self) -> None:
        undone = [s for s in self.steps if s.kind == "undo" and s.undone_by is None]
        if not undone or any(s.id > undone[-1].id for s in self.in_force):
            with pytest.raises(NotFound, match="nothing to redo"):
                self.collection.redo(self.now)
            return
        self.collection.redo(self.now)
        redoing = Did(self._last_step(), "redo", of=undone[-1].id)
        undone[-1].undone_by = redoing.id
        next(s for s in self.steps if s.id == undone[-1].of).undone_by = None
        self.steps.append(redoing)

    def _last_step(self) -> int:
        with self.collection.read(self.now) as book:
            return book.steps(1)[0].id

    # what must hold

    @invariant()
    def the_record_is_what_the_steps_in_force_give(self) -> None:
        if not hasattr(self, "steps"):
            return
        with self.collection.read(self.now) as book:
            assert seen(book.events(corrected=True)) == self.expected(corrected=True)
            assert seen(book.events()) == self.expected(corrected=False)
            assert {a.id: a.name for a in book.animals.values()} == self.animals
            steps = [(s.id, s.kind, s.of, s.undone_by) for s in reversed(book.steps(1000))]
            assert steps == [(s.id, s.kind, s.of, s.undone_by) for s in self.steps]
            self._the_last_event_is_the_last_in_time(book)

    def _the_last_event_is_the_last_in_time(self, book: Book) -> None:
        current = [r for r in sorted(self.rows, key=in_time) if not self.replaced(r)]
        for on in (date(2026, 3, 1), date(2026, 3, 3)):
            for kind, last in book.latest("weighed", "shed", on=on).items():
                ids = {animal: e.id for animal, e in last.items()}
                assert ids == {r.animal: r.id for r in current if r.kind == kind and r.day <= on}


@functools.cache
def empty_collection() -> bytes:
    """The file of an empty collection, made once."""
    with tempfile.TemporaryDirectory() as folder:
        return new_keeper(Path(folder)).path.read_bytes()


def pick(things: list[T], number: int) -> T:
    """One of the things, whichever number was drawn."""
    return things[number % len(things)]


def new(animal: int, kind: str, day: date, hour: int | None, mass: float) -> NewEvent:
    """An event to record."""
    at = None if hour is None else datetime(day.year, day.month, day.day, hour, tzinfo=UTC)
    data = {"mass_g": mass} if kind == "weighed" else {}
    return NewEvent(kind, day, data, animal, at=at)


def row_of(event: Event) -> Row:
    """The model's row of a recorded event."""
    assert event.animal_id is not None
    mass = event.data.get("mass_g")
    return Row(event.id, event.animal_id, event.kind, event.day, event.at, mass)


def in_time(row: Row) -> tuple[object, ...]:
    """A day without a time comes before its times."""
    return (row.day, row.at or datetime.min.replace(tzinfo=UTC), row.id)


TestEventLog = EventLog.TestCase
TestEventLog.settings = settings(
    max_examples=40,
    stateful_step_count=20,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


@pytest.mark.parametrize("broken", ["_shelve", "_refuse_if_needed_later"])
def test_the_model_notices_a_broken_undo(broken: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(undo, broken, lambda *_: None)
    found = settings(
        max_examples=200,
        stateful_step_count=20,
        deadline=None,
        phases=[Phase.generate],
        derandomize=True,
        database=None,
        print_blob=False,
        report_multiple_bugs=False,
        suppress_health_check=list(HealthCheck),
    )
    with pytest.raises((AssertionError, pytest.fail.Exception)):
        run_state_machine_as_test(EventLog, settings=found)
