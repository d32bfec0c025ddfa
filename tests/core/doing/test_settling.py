"""Tasks that no event settles are settled through their plugin, so that `done` works for all."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from warmside.core.plugins.hook_values import Task
from warmside.core.record import tables
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.core.values.errors import BadInput
from warmside.testing import Keeper, throw_away_plugin


@pytest.fixture
def lamps(keeper: Keeper) -> Iterator[Keeper]:
    """A plugin that asks for a new lamp until the note of the enclosure says that it is new."""
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--enclosure", "LOW")

    def asked(book: Any, on: date) -> Iterator[Task]:
        yield Task("weigh", on, Basis("a rule"), About(1), settles="weighed")
        for place in book.enclosures.values():
            if "new lamp" not in place.note:
                about = About(enclosure_id=place.id)
                yield Task("replace the lamp", on, Basis("a rule"), about, command="warmside lamp")

    def settled(writer: Any, task: Task, value: str) -> list[str]:
        if value == "broken":
            raise BadInput("a broken lamp settles nothing; take a new one")
        if value == "later":
            return []
        key = {"id": task.about.enclosure_id}
        writer.change(tables.enclosure, key, note=f"new lamp {value}".strip())
        return ["the lamp of Low shelf is new"]

    with throw_away_plugin("alder", warmside_tasks=asked, warmside_settle=settled):
        keeper.run("plugin", "enable", "alder")
        yield keeper


def numbers(keeper: Keeper) -> dict[str, int]:
    return {t["what"]: t["number"] for t in keeper.json("today")["tasks"]}


def test_done_settles_both_kinds_in_one_step(lamps: Keeper) -> None:
    due = numbers(lamps)
    said = lamps.run("done", f"{due['weigh']}=43g", f"{due['replace the lamp']}=13 W")
    assert "the lamp of Low shelf is new" in said.stdout and "weighed: 43 g" in said.stdout
    assert list(numbers(lamps)) == ["weigh"]
    assert lamps.json("enclosure", "show", "LOW")["note"] == "new lamp 13 W"
    lamps.run("undo")
    assert set(numbers(lamps)) == {"weigh", "replace the lamp"}
    assert len(lamps.json("history", "--kind", "weighed")["events"]) == 0


def test_what_a_plugin_refuses_writes_nothing(lamps: Keeper) -> None:
    due = numbers(lamps)
    typed = (f"{due['weigh']}=43g", f"{due['replace the lamp']}=broken")
    told = "a broken lamp settles nothing"
    assert told in lamps.run("done", *typed, ok=False).complaint(2)
    assert set(numbers(lamps)) == {"weigh", "replace the lamp"}
    assert len(lamps.json("history", "--kind", "weighed")["events"]) == 0


def test_what_a_command_must_settle_is_left_out_by_name_and_the_rest_is_recorded(
    lamps: Keeper,
) -> None:
    due = numbers(lamps)
    typed = (f"{due['weigh']}=43g", f"{due['replace the lamp']}=later")
    result = lamps.run("done", *typed, ok=False)
    assert result.code == 2
    assert "left out: replace the lamp: do it with: warmside lamp" in result.stderr
    assert len(lamps.json("history", "--kind", "weighed")["events"]) == 1
    assert "replace the lamp" in numbers(lamps)
    alone = lamps.run("done", f"{numbers(lamps)['replace the lamp']}=later", ok=False)
    assert "do it with: warmside lamp" in alone.complaint(2)


@pytest.fixture
def counted(keeper: Keeper) -> Iterator[Keeper]:
    """A plugin that asks how many hides there are, until the note of the enclosure says it."""
    keeper.run("enclosure", "add", "Low shelf")

    def asked(book: Any, on: date) -> Iterator[Task]:
        place = About(enclosure_id=1)
        if not book.enclosures[1].note:
            yield Task("count", on, Basis("a rule"), place, asks=("how many hides", "2"))
        if not book.events("cleaned"):
            yield Task("clean", on, Basis("a rule"), place, settles="cleaned")

    def settled(writer: Any, task: Task, value: str) -> list[str]:
        if not value.isdecimal():
            raise BadInput(f"{value} is no number of hides")
        writer.change(tables.enclosure, {"id": 1}, note=f"{value} hides")
        return [f"{value} hides"]

    with throw_away_plugin("alder", warmside_tasks=asked, warmside_settle=settled):
        keeper.run("plugin", "enable", "alder")
        yield keeper


def test_what_a_plugin_must_be_told_is_left_out_of_all_by_name(counted: Keeper) -> None:
    due = numbers(counted)
    done = counted.run("done", "all", ok=False)
    assert done.code == 2 and "cleaned" in done.stdout
    how = f"write it behind the number, such as {due['count']}=2"
    assert f"left out: count (Low shelf) needs how many hides: {how}" in done.stderr
    assert "note" not in counted.json("enclosure", "show", "LOW")
    counted.run("done", f"{numbers(counted)['count']}=3")
    assert counted.json("enclosure", "show", "LOW")["note"] == "3 hides"


def test_a_task_that_asks_without_an_example_is_named_as_its_plugins_fault(
    keeper: Keeper,
) -> None:
    keeper.run("enclosure", "add", "Low shelf")
    task = [Task("count", date(2026, 3, 5), Basis("a rule"), asks=("how many",))]
    with throw_away_plugin("alder", warmside_tasks=lambda: task):
        keeper.run("plugin", "enable", "alder")
        assert "asks of a task that no event settles are two texts" in keeper.run("today").stderr


@pytest.fixture
def filters(keeper: Keeper) -> Iterator[Keeper]:
    """A plugin that asks for a clean filter, and settles it without looking at any value."""
    keeper.run("enclosure", "add", "Low shelf")

    def asked(book: Any, on: date) -> Iterator[Task]:
        if not book.enclosures[1].note:
            yield Task("rinse the filter", on, Basis("a rule"), About(enclosure_id=1))

    def settled(writer: Any, task: Task) -> list[str]:
        writer.change(tables.enclosure, {"id": task.about.enclosure_id}, note="rinsed")
        return ["the filter is rinsed"]

    with throw_away_plugin("alder", warmside_tasks=asked, warmside_settle=settled):
        keeper.run("plugin", "enable", "alder")
        yield keeper


def test_a_value_that_the_plugin_would_not_see_settles_nothing(filters: Keeper) -> None:
    refused = filters.run("done", "1=refused", ok=False).complaint(2)
    assert "rinse the filter takes no value, not refused; look at the number" in refused
    assert list(numbers(filters)) == ["rinse the filter"]
    assert "the filter is rinsed" in filters.run("done", "1").stdout
    assert numbers(filters) == {}


def test_a_plugin_may_refuse_a_row_that_contradicts_it(keeper: Keeper) -> None:
    def refuse(changes: Any) -> list[Any]:
        for change in changes:
            if change.table == "enclosure" and change.after and change.after["name"] == "Pond":
                raise BadInput("no ponds here; name it otherwise")
        return []

    with throw_away_plugin("alder", warmside_rows_changed=refuse):
        keeper.run("plugin", "enable", "alder")
        keeper.run("enclosure", "add", "Shelf")
        assert "no ponds here" in keeper.run("enclosure", "add", "Pond", ok=False).complaint(2)
        refused = keeper.run("enclosure", "change", "SHE", "--name", "Pond", ok=False)
        assert "no ponds here" in refused.complaint(2)
    assert [e["name"] for e in keeper.json("enclosure", "list")["enclosures"]] == ["Shelf"]
