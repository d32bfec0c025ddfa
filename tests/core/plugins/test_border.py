"""Whatever a plugin gives is checked whole: what cannot be used costs that plugin its items."""

from __future__ import annotations

import math
from datetime import date, datetime
from typing import Any

import pytest

from warmside.core.answers.parts import Section
from warmside.core.asking.ask import Ask
from warmside.core.plugins.hook_values import CareRank, Finding, LabelLine, Level, Task
from warmside.core.plugins.host import Host
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
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
    from warmside.core.record.entities import NewEvent

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
