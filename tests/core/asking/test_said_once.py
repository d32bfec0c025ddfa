"""A fact is said once in a round: as a task, or as a finding, or as a line on a loan."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest

from warmside.api import About, Basis, Finding, Level, Task
from warmside.testing import Keeper, throw_away_plugin

WHY = Basis("because it is so")
CODES = ("weight", "cable", "limp")


@pytest.fixture
def house(keeper: Keeper) -> Iterator[Keeper]:
    """Ember in V-01; a plugin that finds what its tasks say, and of Moss what no task says."""

    def tasks(book, on):
        yield Task("weigh", on, WHY, About(book.animal("Ember").id), settles="weighed")
        home = About(enclosure_id=book.enclosure("V-01").id)
        yield Task("look at the cable", on, WHY, home, key="cable 3")

    def findings(book, on):
        for name in ("Ember", "Moss"):
            whom = About(book.animal(name).id)
            yield Finding("chores.weight", Level.NOTE, "never weighed", WHY, whom, "weighed")
        home = About(enclosure_id=book.enclosure("V-01").id)
        yield Finding("chores.cable", Level.LOOK_SOON, "cable chewed", WHY, home, "cable 3")
        ember = About(book.animal("Ember").id)
        yield Finding("chores.limp", Level.ACT_NOW, "limp", WHY, ember, "weighed")

    keeper.run("enclosure", "add", "Tub", "--code", "V-01")
    for name in ("Ember", "Moss"):
        keeper.run("animal", "add", name, "--species", "crested gecko", "--enclosure", "V-01")
    plugin = throw_away_plugin(
        "chores",
        manifest={"findings": tuple((f"chores.{code}", code) for code in CODES)},
        warmside_tasks=tasks,
        warmside_findings=findings,
    )
    with plugin:
        keeper.run("plugin", "enable", "chores")
        yield keeper


def test_what_a_task_says_is_not_found_beside_it_unless_to_act_now(house: Keeper) -> None:
    """A finding goes by the event that settles the task, or by the task's key, of that subject."""
    found = [(f["code"], f["subject"]) for f in house.json("today")["findings"]]
    assert found == [("chores.limp", "Ember (EMB)"), ("chores.weight", "Moss (MOS)")]
    with house.ask() as ask:
        assert len(ask.findings(date(2026, 3, 5))) == 4
    assert "cable chewed" in house.run("report", "V-01").stdout
    house.run("later", "b", "--until", "2026-04-01", "--reason", "it is small")
    assert "never weighed" not in house.run("today", "--why").stdout.split("put off")[0]


@pytest.mark.parametrize("day", ["2026-03-04", "2026-03-05", "2026-03-20", "2026-04-20"])
def test_a_loan_is_told_once_before_on_and_after_its_day(keeper: Keeper, day: str) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--since", "2025-01-01")
    keeper.run("plugin", "enable", "lineage")
    keeper.run("lend", "Ember", "--to", "Ann", "--until", "2026-03-20", "--at", "2026-02-01")
    shown = keeper.run("today", "--on", day).stdout
    assert shown.count("Ann") == 1 and not shown.endswith("\n\n"), shown
    assert len(keeper.json("today", "--on", day)["away"]) == 1
