"""The plugin host: what a plugin does wrong costs only its own items, and is said once."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing
from datetime import date
from typing import Any

import pytest

from warmside.core.answers.parts import Section, paragraphs
from warmside.core.asking.ask import Ask
from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.shared import Observed
from warmside.core.plugins.hook_values import CareRank, Finding, LabelLine, Level, Task
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import Manifest
from warmside.core.plugins.sheets import Place, Sheet
from warmside.core.record.entities import NewEvent
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.errors import BadInput, UnknownWord
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
EMBER = About(1)
LOOK = Task("look at it", DAY, RULE, EMBER, settles="observed")
WEIGH = Task("weigh", DAY, RULE, EMBER, settles="weighed")

# for each observer hook: its value type, what it is called with, and a good item
OBSERVERS: dict[str, tuple[type[Any], dict[str, Any], Any]] = {
    "warmside_event_kinds": (EventKind, {}, None),
    "warmside_tasks": (Task, {"on": DAY}, WEIGH),
    "warmside_findings": (
        Finding,
        {"on": DAY, "about": None},
        Finding("good.x", Level.NOTE, "look", RULE, EMBER),
    ),
    "warmside_care_order": (CareRank, {"on": DAY}, CareRank(1, 5, "last", "g", "wash hands")),
    "warmside_label_lines": (LabelLine, {"about": EMBER, "on": DAY}, None),
    "warmside_report_sections": (
        Section,
        {"about": EMBER, "on": DAY},
        Section("A part", paragraphs("told")),
    ),
    "warmside_sheet_sections": (
        Section,
        {"sheet": Sheet.VET, "about": EMBER, "on": DAY, "until": DAY},
        Section("A part", paragraphs("told"), Place.WHY),
    ),
    "warmside_answer": (
        Estimate,
        {"what": "mass", "about": EMBER, "on": DAY},
        Estimate(400.0, 380.0, 420.0, Unit.MASS, RULE),
    ),
    "warmside_check": (str, {}, "a row without its animal"),
    "warmside_unknown_words": (
        UnknownWord,
        {"words": {"fed.item": {"gloop": 2}}},
        UnknownWord("fed.item", "gloop", 2),
    ),
}
INTEGRAL = "warmside_events_recorded"
ALSO_INTEGRAL = {"warmside_rows_changed", "warmside_settle"}


def raises(**_: Any) -> list[object]:
    raise RuntimeError("the lamp\nbroke")


def raises_late() -> Iterator[object]:
    raise KeyError("late")
    yield


def gives_objects() -> list[object]:
    return [object()]


def gives_a_number() -> int:
    return 3


def asks_for_a_table_that_is_not_there(book: Any) -> list[object]:
    return list(book.rows("SELECT x FROM nowhere"))


BAD: dict[str, tuple[Callable[..., Any], str]] = {
    "raises": (lambda: raises(), "RuntimeError: the lamp broke"),
    "raises late": (raises_late, "KeyError: 'late'"),
    "wrong type": (gives_objects, "TypeError: gave object, "),
    "no list at all": (gives_a_number, "TypeError: 'int' object is not iterable"),
}


def plugin_with(
    name: str, hook: str, function: Callable[..., Any], manifest: dict[str, Any] | None = None
) -> AbstractContextManager[Manifest]:
    """A throw-away plugin with one hook."""
    hooks: dict[str, Any] = {hook: function}
    return throw_away_plugin(name, manifest=manifest, **hooks)


def rows_of(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return list(connection.iterdump())


# observers


def test_every_hook_is_tried_here() -> None:
    specified = {name for name in vars(Hooks) if name.startswith("warmside_")}
    assert specified == {*OBSERVERS, INTEGRAL, *ALSO_INTEGRAL}


@pytest.mark.parametrize("bad", BAD)
@pytest.mark.parametrize("hook", [h for h in OBSERVERS if h != "warmside_event_kinds"])
def test_a_plugin_that_fails_in_an_observer_costs_only_its_own_items(
    ember: Keeper, hook: str, bad: str
) -> None:
    of, arguments, good = OBSERVERS[hook]
    function, told = BAD[bad]
    mine, other = (good or LabelLine(f"{name}.line", "a line") for name in ("alder", "cedar"))
    codes: dict[str, Any] = {"findings": (("good.x", "a finding of the test"),)}
    with (
        plugin_with("alder", hook, lambda: [mine], codes) as first,
        plugin_with("birch", hook, function) as broken,
        plugin_with("cedar", hook, lambda: (other,), codes) as last,
        ember.book() as book,
    ):
        host = Host([first, broken, last])
        ask = Ask(book, host)
        got = host.collect(hook, of, book=book, ask=ask, **arguments)
        again = host.collect(hook, of, book=book, ask=ask, **arguments)
    assert got == again == [("alder", mine), ("cedar", other)]
    (failure,) = host.failures
    assert (failure.plugin, failure.where) == ("birch", hook)
    assert failure.error.startswith(told)
    assert "\n" not in str(failure)


@pytest.mark.parametrize("bad", BAD)
def test_a_plugin_that_fails_to_give_its_kinds_costs_only_its_own(bad: str) -> None:
    mine = EventKind("alder.sown", "sown", Observed)
    with (
        throw_away_plugin("alder", warmside_event_kinds=lambda: [mine]) as first,
        throw_away_plugin("birch", warmside_event_kinds=BAD[bad][0]) as broken,
    ):
        host = Host([first, broken])
    assert host.kinds["alder.sown"] is mine
    assert [f.plugin for f in host.failures] == ["birch"]


def test_a_failed_query_of_one_plugin_leaves_the_snapshot_to_the_others(ember: Keeper) -> None:
    def reads(book: Any) -> list[Task]:
        return [Task(book.animals[1].name, DAY, RULE, EMBER)]

    with (
        throw_away_plugin("alder", warmside_tasks=asks_for_a_table_that_is_not_there) as bad,
        throw_away_plugin("birch", warmside_tasks=reads) as good,
        ember.book() as book,
    ):
        host = Host([bad, good])
        (found,) = host.collect("warmside_tasks", Task, book=book, ask=Ask(book, host), on=DAY)
    assert found[1].what == "Ember"
    assert "no such table: nowhere" in host.failures[0].error


def test_an_observer_cannot_write(ember: Keeper, enable_by_hand: Callable[..., None]) -> None:
    def writes(book: Any) -> list[Task]:
        book._connection.execute("UPDATE animal SET name = 'hacked'")
        return []

    with throw_away_plugin("alder", warmside_tasks=writes):
        enable_by_hand(ember, "alder")
        said = ember.run("today")
    assert "readonly" in said.stderr
    assert ember.json("animal", "list")["animals"][0]["name"] == "Ember"


@pytest.mark.parametrize(
    ("hook", "command"),
    [
        ("warmside_tasks", "today"),
        ("warmside_findings", "today"),
        ("warmside_care_order", "today"),
        ("warmside_report_sections", "report EMB"),
        ("warmside_sheet_sections", "sheet vet EMB"),
        ("warmside_findings", "report EMB"),
        ("warmside_event_kinds", "animal list"),
    ],
)
def test_the_command_goes_on_and_the_failure_is_said_once(
    ember: Keeper, hook: str, command: str, enable_by_hand: Callable[..., None]
) -> None:
    ember.run("animal", "add", "Moss", "--species", "leopard gecko")
    with plugin_with("birch", hook, lambda: raises()):
        enable_by_hand(ember, "birch")
        said = ember.run(*command.split())
        assert "Ember" in said.stdout
        assert said.stderr == (
            f"warning: plugin birch failed in {hook}: RuntimeError: the lamp broke; "
            "the rest went on; more: warmside plugin show birch\n"
        )
        assert ember.run("--strict", *command.split(), ok=False).code == 1
        assert ember.run("--without", "birch", "--strict", *command.split()).stderr == ""
        assert ember.run("--no-plugins", "--strict", *command.split()).stderr == ""


def test_what_failed_is_in_the_list_of_plugins_and_in_the_check(
    ember: Keeper, enable_by_hand: Callable[..., None]
) -> None:
    with throw_away_plugin("birch", warmside_event_kinds=lambda: raises()):
        enable_by_hand(ember, "birch")
        listed = {p["name"]: p for p in ember.json("plugin", "list")["plugins"]}
        assert listed["birch"]["problem"] == "warmside_event_kinds: RuntimeError: the lamp broke"
        shown = ember.json("plugin", "show", "birch")
        assert "the lamp broke" in shown["problem"]
        checked = ember.run("file", "check", "--json", ok=False)
        assert (checked.code, checked.json["ok"]) == (5, False)


# integral


@pytest.mark.parametrize("bad", BAD)
def test_a_plugin_that_fails_in_an_integral_hook_stops_the_step(
    ember: Keeper, bad: str, enable_by_hand: Callable[..., None]
) -> None:
    function, told = BAD[bad]
    with throw_away_plugin("birch", warmside_events_recorded=function):
        enable_by_hand(ember, "birch")
        before = rows_of(ember)
        refused = ember.run("record", "weighed", "EMB=412g", ok=False)
        assert (refused.code, refused.stdout) == (1, "")
        assert refused.stderr.startswith(f"warmside: plugin birch failed in {INTEGRAL}: {told}")
        assert refused.stderr.endswith(
            "nothing was recorded; to go on without it: warmside --without birch ...\n"
        )
        assert refused.stderr.count("\n") == 1
        assert rows_of(ember) == before
        ember.run("--without", "birch", "record", "weighed", "EMB=412g")


def test_a_plugin_may_refuse_a_step_with_a_reason_of_its_own(
    ember: Keeper, enable_by_hand: Callable[..., None]
) -> None:
    def refuse(events: Any) -> list[NewEvent]:
        raise BadInput("412 g is too much for the shelf; weigh again")

    with throw_away_plugin("birch", warmside_events_recorded=refuse):
        enable_by_hand(ember, "birch")
        refused = ember.run("record", "weighed", "EMB=412g", ok=False)
    assert (refused.code, refused.stderr) == (
        2,
        "warmside: 412 g is too much for the shelf; weigh again\n",
    )


def test_reactions_hear_once_more_of_what_plugins_added_and_no_further(
    ember: Keeper, enable_by_hand: Callable[..., None]
) -> None:
    seen: dict[str, list[list[str]]] = {"alder": [], "birch": []}

    def react(name: str) -> Callable[..., list[NewEvent]]:
        def hook(book: Any, events: Any) -> list[NewEvent]:
            assert book.events("weighed", animal=1), "what the step wrote is in the book"
            seen[name].append([e.kind for e in events])
            return [NewEvent("observed", DAY, {"what": name}, 1)]

        return hook

    with (
        throw_away_plugin("alder", warmside_events_recorded=react("alder")),
        throw_away_plugin("birch", warmside_events_recorded=react("birch")),
    ):
        enable_by_hand(ember, "birch", "alder")
        said = ember.json("record", "weighed", "EMB=412g")
        twice = [["weighed"], ["observed"]]  # of its own it knows
        assert seen == {"alder": twice, "birch": twice}
        assert [r["what"] for r in said["recorded"]] == [
            "weighed: 412 g",
            *["observed: alder", "observed: birch"] * 2,
        ]
        ember.run("undo")
        assert [e["what"] for e in ember.json("history")["events"]] == ["here already"]
