"""Whatever a plugin gives is checked whole: what cannot be used costs that plugin its items."""

from __future__ import annotations

import contextlib
import math
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import date, datetime
from typing import Any

import pytest
from sqlalchemy.exc import DBAPIError

from warmside.core.answers.parts import Section
from warmside.core.asking.ask import Ask
from warmside.core.plugins.hook_values import CareRank, Finding, LabelLine, Level, Task
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import Answers
from warmside.core.record.book import Book
from warmside.core.record.entities import NewEvent
from warmside.core.record.steps import StepWriter
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.errors import BadInput, WarmsideError
from warmside.core.values.estimates import DayRange, Distribution
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
ABOUT = {"about": About(1), "on": DAY}
MASS = {"what": "mass", **ABOUT}
CODES = {"findings": (("birch.x", "a finding of the test"),)}
TEXT: Any = "text"

BAD: list[tuple[str, dict[str, Any], Any, str]] = [
    ("tasks", {"on": DAY}, Task("look", datetime(2026, 3, 5), RULE), "due of a task is a date"),
    ("tasks", {"on": DAY}, Task("look", date(1799, 1, 1), RULE), "outside the years"),
    ("tasks", {"on": DAY}, Task("look", DAY, RULE, About(99)), "animal number 99, which there"),
    ("tasks", {"on": DAY}, Task("look", DAY, RULE, About(True)), "a whole number is wanted"),
    ("tasks", {"on": DAY}, Task("", DAY, RULE), "what of a task is empty"),
    ("tasks", {"on": DAY}, Task("look", DAY, TEXT), "basis is a Basis"),
    ("tasks", {"on": DAY}, Task("look", DAY, RULE, TEXT), "About is wanted"),
    ("tasks", {"on": DAY}, Task("look", DAY, RULE, settles="weihed"), "did you mean 'weighed'?"),
    ("tasks", {"on": DAY}, Task("w", DAY, RULE, settles="weighed", data={"m": 1}), "no field 'm'"),
    ("tasks", {"on": DAY}, Task("w", DAY, RULE, every_days=0), "whole number of days, not 0"),
    (
        "findings",
        {"on": DAY, "about": None},
        Finding("birch.y", Level.NOTE, "hm", RULE),
        "'birch.y' is not in its manifest",
    ),
    (
        "findings",
        {"on": DAY, "about": None},
        Finding("birch.x", TEXT, "hm", RULE),
        "level of a finding is a Level",
    ),
    ("care_order", {"on": DAY}, CareRank(9, 1, "far"), "enclosure number 9, which there is not"),
    ("care_order", {"on": DAY}, CareRank(1, -1, "far"), "rank of an enclosure is 0 or more"),
    ("label_lines", ABOUT, LabelLine("alder.x", "line"), "'alder.x' is not its own"),
    ("report_sections", ABOUT, Section("A part", (TEXT,)), "holds str, which is no part"),
    ("answer", MASS, Estimate(1.0, math.nan, 2.0, Unit.MASS, RULE), "an estimate is finite"),
    ("answer", MASS, Estimate(1.0, 3.0, 2.0, Unit.MASS, RULE), "is no range"),
    ("answer", MASS, DayRange(DAY, date(2026, 3, 1), RULE), "is no range of days"),
    ("answer", MASS, Distribution(((1.0, 0.7),), Unit.MASS, RULE), "probabilities sum to 0.7"),
]


@pytest.mark.parametrize(("hook", "asked", "item", "told"), BAD, ids=[b[3] for b in BAD])
def test_an_item_that_cannot_be_used_is_lost_and_its_plugin_named(
    ember: Keeper, hook: str, asked: dict[str, Any], item: object, told: str
) -> None:
    hooks: dict[str, Any] = {f"warmside_{hook}": lambda: [item]}
    with throw_away_plugin("birch", manifest=CODES, **hooks) as birch, ember.book() as book:
        host = Host([birch])
        got = host.collect(f"warmside_{hook}", type(item), book=book, ask=Ask(book, host), **asked)
    assert got == []
    (failure,) = host.failures
    assert failure.plugin == "birch"
    assert told in failure.error


def test_a_reaction_with_an_instant_for_a_day_writes_nothing(ember: Keeper) -> None:
    def react() -> list[NewEvent]:
        return [NewEvent("observed", datetime(2026, 3, 5, 12), {"what": "odd"}, 1)]

    with throw_away_plugin("birch", warmside_events_recorded=react):
        ember.run("plugin", "enable", "birch")
        refused = ember.run("record", "weighed", "EMB=412g", ok=False)
        assert "day of an event is a date, not datetime" in refused.complaint(1)
    assert [e["kind"] for e in ember.json("history")["events"]] == ["kept"]
    ember.run("--without", "birch", "record", "weighed", "EMB=412g")


def test_an_exception_that_cannot_be_told_is_named_all_the_same(ember: Keeper) -> None:
    class Mute(Exception):
        def __str__(self) -> str:
            raise RuntimeError("no words")

    def fails() -> list[Task]:
        raise Mute

    with throw_away_plugin("birch", warmside_tasks=fails):
        ember.run("plugin", "enable", "birch")
        assert "plugin birch failed in warmside_tasks: Mute: (without" in ember.run("today").stderr


class OutsideException(BaseException):
    """What neither a plugin's author nor we would catch by accident."""


def test_what_is_raised_outside_exception_is_named_and_the_rest_goes_on(ember: Keeper) -> None:
    def fails() -> list[Task]:
        raise OutsideException("odd")

    with throw_away_plugin("birch", warmside_tasks=fails):
        ember.run("plugin", "enable", "birch")
        told = ember.run("today")
    assert "plugin birch failed in warmside_tasks: OutsideException: odd" in told.stderr
    assert "The round of" in told.stdout


def test_a_plugin_that_prints_does_not_break_json(ember: Keeper) -> None:
    def prints() -> Iterator[Task]:
        print("debug 1")
        yield Task("look", DAY, RULE)
        print("debug 2")

    with throw_away_plugin("birch", warmside_tasks=prints):
        ember.run("plugin", "enable", "birch")
        told = ember.run("today", "--json")
    assert [t["what"] for t in told.json["tasks"]] == ["look"]
    assert told.stderr.splitlines()[:2] == ["debug 1", "debug 2"]


def unlocked(book: Book, *statements: str) -> None:
    """What a plugin can do that reaches past the api."""
    for statement in ("PRAGMA query_only = OFF", *statements):
        book._connection.execute(statement)


WRITES = {
    "the guard alone": (),
    "a row": ("UPDATE animal SET note = 'mine'",),
    "a row, kept": ("UPDATE animal SET note = 'mine'", "ROLLBACK", "BEGIN"),
}


@pytest.mark.parametrize("name", WRITES)
def test_a_hook_that_takes_off_the_guard_is_found_out_and_named(ember: Keeper, name: str) -> None:
    def writes(book: Book) -> list[Task]:
        unlocked(book, *WRITES[name])
        return [Task("polish the lid", DAY, RULE)]

    with throw_away_plugin("birch", warmside_tasks=writes):
        ember.run("plugin", "enable", "birch")
        told = ember.run("today")
    assert "plugin birch failed in warmside_tasks: it wrote past the step" in told.stderr
    assert "polish" not in told.stdout
    with ember.book() as book:
        assert {a.note for a in book.animals.values()} == {""}


def test_a_reaction_that_writes_past_the_step_stops_it(ember: Keeper) -> None:
    def writes(book: Book) -> list[Task]:
        unlocked(book, "UPDATE animal SET note = 'mine'")
        return []

    with throw_away_plugin("birch", warmside_events_recorded=writes):
        ember.run("plugin", "enable", "birch")
        line = ember.run("record", "weighed", "EMB=412g", ok=False).complaint(1)
    assert "plugin birch failed in warmside_events_recorded: it wrote past" in line
    with ember.book() as book:
        assert {a.note for a in book.animals.values()} == {""}
        assert not book.events("weighed")


ENDINGS: dict[str, Callable[[Book], object]] = {
    "a statement": lambda book: book._connection.execute("COMMIT"),
    "the driver": lambda book: book._connection.commit(),
    "a script": lambda book: book._connection.executescript("UPDATE animal SET note = 'mine'"),
    "taking back": lambda book: book._connection.rollback(),
}


def assert_nothing_is_kept(ember: Keeper, reaction: Callable[[Book], list[NewEvent]]) -> None:
    """A plugin that reacts like that is named, and the step that it reacted to is not kept."""
    with throw_away_plugin("birch", warmside_events_recorded=reaction):
        ember.run("plugin", "enable", "birch")
        before = ember.path.read_bytes()
        line = ember.run("record", "weighed", "EMB=412g", ok=False).complaint(1)
    assert "plugin birch failed in warmside_events_recorded: it commits or rolls back" in line
    assert "nothing was recorded" in line and ember.path.read_bytes() == before


@pytest.mark.parametrize("name", ENDINGS)
def test_a_reaction_that_commits_by_itself_is_named_and_nothing_of_the_step_is_kept(
    ember: Keeper, name: str
) -> None:
    def commits(book: Book) -> list[NewEvent]:
        ENDINGS[name](book)
        return []

    assert_nothing_is_kept(ember, commits)


def test_a_reaction_that_passes_over_a_refused_commit_is_named_all_the_same(
    ember: Keeper,
) -> None:
    def quiet(book: Book) -> list[NewEvent]:
        with contextlib.suppress(sqlite3.Error):
            book._connection.commit()
        return []

    assert_nothing_is_kept(ember, quiet)


def test_an_observer_within_a_step_that_passes_over_a_refused_commit_is_the_one_named(
    ember: Keeper,
) -> None:
    """Birch only asks; the step is stopped by alder, which answers it."""

    def asks(ask: Ask) -> list[NewEvent]:
        ask.answers("mass", About(1), DAY)
        return []

    def quiet(book: Book) -> list[Estimate]:
        with contextlib.suppress(sqlite3.Error):
            book._connection.execute("ROLLBACK")
        return []

    answers = {"answers": (Answers("mass", Unit.MASS),)}
    with (
        throw_away_plugin("birch", warmside_events_recorded=asks),
        throw_away_plugin("alder", manifest=answers, warmside_answer=quiet),
    ):
        ember.run("plugin", "enable", "birch", "alder")
        line = ember.run("record", "weighed", "EMB=412g", ok=False).complaint(1)
    assert line.startswith("warmside: plugin alder failed in warmside_answer: it commits or rolls")
    with ember.book() as book:
        assert not book.events("weighed")


def test_a_settling_that_passes_over_a_refused_commit_is_named(ember: Keeper) -> None:
    def quiet(writer: StepWriter) -> list[str]:
        writer.record(NewEvent("observed", DAY, {"what": "polished"}, 1))
        with contextlib.suppress(DBAPIError):
            writer._connection.exec_driver_sql("COMMIT")
        return ["polished"]

    def task() -> list[Task]:
        return [Task("polish", DAY, RULE, About(1))]

    with throw_away_plugin("birch", warmside_tasks=task, warmside_settle=quiet):
        ember.run("plugin", "enable", "birch")
        ember.run("today")
        line = ember.run("done", "1", ok=False).complaint(1)
    assert "plugin birch failed in warmside_settle: it commits or rolls back" in line
    with ember.book() as book:
        assert not book.events("observed")


@pytest.mark.parametrize("then", ["record", "give up"])
def test_a_command_that_commits_in_its_own_step_keeps_nothing_of_it(
    ember: Keeper, then: str
) -> None:
    before = ember.path.read_bytes()
    weighed = NewEvent("weighed", DAY, {"mass_g": 412.0}, 1)
    with (
        pytest.raises(WarmsideError, match="ended from within"),
        ember.open().step("half", ember.now) as writer,
    ):
        writer.record(weighed)
        with contextlib.suppress(DBAPIError) if then == "record" else contextlib.nullcontext():
            writer._connection.commit()
        writer.record(weighed)
    ember.run("today")
    assert ember.path.read_bytes() == before


def test_no_day_that_is_none_gets_past_the_writer_or_the_wall(ember: Keeper) -> None:
    """The writer refuses it in words; the table does where the writer was gone around."""
    with ember.open().step("slips", ember.now) as writer:
        for day in (datetime(2026, 3, 5, 12), date(1799, 12, 31), date(3000, 1, 1)):
            with pytest.raises(BadInput, match="is no day between 1800 and 2999"):
                writer.record_checked([NewEvent("observed", day, {"what": "x"}, 1)])
    with closing(sqlite3.connect(ember.path)) as file:
        for day in ("2026-03-05T12:00:00", "1799-12-31", "3000-01-01", "2026-02-30", "today", ""):
            with pytest.raises(sqlite3.IntegrityError, match="the day or instant"):
                file.execute(
                    "INSERT INTO event (kind, animal_id, day, data, note, step_id) "
                    "VALUES ('observed', 1, ?, '{}', '', 1)",
                    (day,),
                )
