"""`warmside done` records what settles a task, under the number that the round showed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest

from warmside.core.plugins.hook_values import Task
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, throw_away_plugin


@pytest.fixture
def fed(keeper: Keeper) -> Any:
    """A keeper whose plugin asks to feed and to weigh one animal until that is done."""
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--enclosure", "LOW")

    def asked(book: Any, on: date) -> list[Task]:
        animal = book.animal("EMB").id
        done = book.latest("fed", "weighed", on=on)
        meal = {"item": "cricket", "count": 4}
        tasks = [
            Task("feed", on, Basis("r"), About(animal), settles="fed", data=meal),
            Task("weigh", on, Basis("r"), About(animal), settles="weighed"),
        ]
        return [t for t in tasks if animal not in done[t.settles]]

    with throw_away_plugin("asker", warmside_tasks=asked):
        keeper.run("plugin", "enable", "asker")
        keeper.run("today")
        yield keeper


def last(keeper: Keeper, kind: str) -> dict[str, Any]:
    with keeper.book() as book:
        return dict(book.events(kind)[-1].data)


@pytest.mark.parametrize(
    ("typed", "field", "value"),
    [
        ("1", "outcome", "taken"),
        ("1=refused", "outcome", "refused"),
        ("1=1.2g", "mass_g", 1.2),
        ("1=insect", "form", "insect"),
    ],
)
def test_a_value_goes_to_the_field_that_can_have_it(
    fed: Keeper, typed: str, field: str, value: object
) -> None:
    fed.run("done", typed)
    assert last(fed, "fed")[field] == value
    assert last(fed, "fed")["item"] == "cricket"


def test_a_number_keeps_its_task_after_another_is_done(fed: Keeper) -> None:
    fed.run("done", "1")
    fed.run("done", "2=41g")
    assert last(fed, "weighed") == {"mass_g": 41.0}
    again = fed.run("done", "1", ok=False)
    assert again.code == 4 and "done already" in again.stderr


@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        ("2", 2, "write it behind the number, such as 2="),
        ("2=41s", 2, "no unit for mass"),
        ("1=banana", 2, "banana cannot be recorded with it; it takes: mass, form, outcome"),
        ("9", 3, "no task '9'"),
        ("x", 3, "no task 'x'"),
        ("1-", 2, "lacks its other end; type 1-2, or 1 alone"),
    ],
)
def test_what_cannot_be_recorded_is_said(fed: Keeper, typed: str, code: int, said: str) -> None:
    result = fed.run("done", typed, ok=False)
    assert (result.code, result.stderr.count("\n")) == (code, 1)
    assert said in result.stderr
    with fed.book() as book:
        assert book.events("fed", "weighed") == []


@pytest.fixture
def shelf(keeper: Keeper) -> Iterator[Keeper]:
    """Two enclosures with an animal each; a plugin that asks for five things, one of which may."""
    for place, name in (("Low", "Ember"), ("High", "Moss")):
        keeper.run("enclosure", "add", place)
        keeper.run("animal", "add", name, "--species", "leopard gecko", "--enclosure", place)

    def asked(book: Any, on: date) -> list[Task]:
        low, ember, moss = (
            About(enclosure_id=book.enclosure("LOW").id),
            About(book.animal("EMB").id),
            About(book.animal("MOS").id),
        )
        tasks = [
            Task("water", on - timedelta(days=3), Basis("r"), low, settles="watered"),
            Task("feed", on, Basis("r"), ember, settles="fed", data={"item": "cricket"}),
            Task("weigh", on, Basis("r"), moss, settles="weighed"),
            Task("has it shed?", on, Basis("r"), ember, settles="shed", asks=("outcome",)),
            Task("mist", on, Basis("r"), low, settles="misted", by=on + timedelta(days=4)),
        ]
        done = {e.kind for e in book.events("watered", "fed", "weighed", "shed", since=book.today)}
        return [t for t in tasks if t.settles not in done]

    with throw_away_plugin("asker", warmside_tasks=asked):
        keeper.run("plugin", "enable", "asker")
        yield keeper


def number_of(keeper: Keeper, what: str) -> int:
    return next(t["number"] for t in keeper.json("today")["tasks"] if t["what"] == what)


def kinds(keeper: Keeper) -> list[str]:
    with keeper.book() as book:
        return sorted(e.kind for e in book.events("watered", "fed", "weighed", "shed", "misted"))


def test_all_settles_what_is_due_and_names_what_it_leaves(shelf: Keeper) -> None:
    """What needs a word of the keeper is left out, and what merely may be done."""
    misting = number_of(shelf, "mist")
    done = shelf.run("done", "all", ok=False)
    assert done.code == 2 and kinds(shelf) == ["fed", "watered"]
    left = [line for line in done.stderr.splitlines() if "left out" in line]
    assert len(left) == 2 and "in one piece" not in done.stdout
    assert any("weigh (Moss) needs its body mass" in line for line in left)
    assert any("has it shed? (Ember) needs a word on how it came off" in line for line in left)
    assert f"needs its number: {misting}" in done.stderr


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (("LOW",), ["fed", "watered"]),
        (("ember",), ["fed"]),
        (("1,2",), ["fed", "watered"]),
        (("1-2", "2=refused"), ["fed", "watered"]),
        (("1", "1"), ["watered"]),
    ],
)
def test_tasks_are_named_by_place_by_animal_and_by_numbers(
    shelf: Keeper, typed: tuple[str, ...], expected: list[str]
) -> None:
    shelf.run("today")
    shelf.run("done", *typed, ok=False)
    assert kinds(shelf) == expected
    shelf.run("undo")
    assert kinds(shelf) == []


@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        ("1-9", 3, "no task '9'"),
        ("3-1", 2, "runs backwards; type 1-3"),
        ("LOW=5g", 2, "type the value behind a number"),
        ("0", 3, "no task '0'"),
    ],
)
def test_a_slip_in_what_is_named_records_nothing(
    shelf: Keeper, typed: str, code: int, said: str
) -> None:
    shelf.run("today")
    result = shelf.run("done", "1", typed, ok=False)
    assert result.code == code and said in result.stderr
    assert kinds(shelf) == []


def test_all_wants_a_round_that_was_seen(shelf: Keeper) -> None:
    refused = shelf.run("done", "all", ok=False)
    assert refused.code == 4 and "warmside today" in refused.stderr


def test_numbers_belong_to_the_round_that_was_shown_last(shelf: Keeper) -> None:
    """Tomorrow's round was looked at; its numbers hold, for the same tasks today."""
    shelf.run("today", "--on", "tomorrow")
    shelf.run("done", "1")
    assert kinds(shelf) == ["watered"]
    gone = shelf.run("done", "1", "2", ok=False)
    assert "task 1, water (Low), is done already or has changed" in gone.stderr
    assert kinds(shelf) == ["fed", "watered"]


def test_a_late_task_says_how_late_and_one_that_may_wait_until_when(shelf: Keeper) -> None:
    tasks = {t["what"]: t for t in shelf.json("today")["tasks"]}
    assert tasks["water"]["group"] == "overdue" and tasks["water"]["late_days"] == 3
    assert (tasks["feed"]["group"], tasks["mist"]["group"]) == ("today", "may be done")
    shown = shelf.run("today").stdout
    assert "! 3 days late" in shown and f"until {tasks['mist']['by']}" in shown


def test_why_tells_the_whole_reason_of_a_line(shelf: Keeper) -> None:
    shelf.run("today")
    assert shelf.json("why", "1")["why"][0]["what"] == "water (Low)"
    assert shelf.run("why", "77", ok=False).code == 3


@pytest.mark.parametrize(("typed", "code"), [("tod", 0), ("t", 0), ("anim", 2), ("d", 2)])
def test_the_beginning_of_a_command_will_do_where_it_is_that_of_no_other(
    keeper: Keeper, typed: str, code: int
) -> None:
    result = keeper.run(typed, ok=False)
    assert result.code == code
    if typed == "d":
        assert "demo and done and depart; type one letter more" in result.stderr
