"""The plugin host: what a plugin does wrong costs only its own items, and is said once."""

from __future__ import annotations

import itertools
import sqlite3
import sys
import types
import zipfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing
from datetime import date
from pathlib import Path
from typing import Any

import pluggy
import pytest
from sqlalchemy import column, select, table

from warmside.cli.commands.today import round_of
from warmside.core import discovery
from warmside.core.answers import Section, words
from warmside.core.basis import Basis, Estimate
from warmside.core.discovery import BUILT_IN, Installed, installed, manifest_of, read_state
from warmside.core.errors import BadInput
from warmside.core.hookspecs import CareRank, Finding, Hooks, LabelLine, Level, Task
from warmside.core.host import Host
from warmside.core.kinds import EventKind
from warmside.core.manifest import (
    HOOK_LEVEL,
    BadPlugin,
    Command,
    Manifest,
    Setting,
    check_level,
    check_manifest,
    setting_value,
)
from warmside.core.record import NewEvent
from warmside.core.shared_kinds import Observed
from warmside.core.units import Unit
from warmside.testing import Keeper, new_keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
LOOK = Task("look at it", DAY, RULE, 1, settles="observed")
WEIGH = Task("weigh", DAY, RULE, 1, settles="weighed")

# for each observer hook: its value type, what it is called with, and a good item
OBSERVERS: dict[str, tuple[type[Any], dict[str, Any], Any]] = {
    "warmside_event_kinds": (EventKind, {}, None),
    "warmside_tasks": (Task, {"on": DAY}, WEIGH),
    "warmside_findings": (Finding, {"on": DAY}, Finding("good.x", Level.NOTE, "look", RULE, 1)),
    "warmside_care_order": (CareRank, {"on": DAY}, CareRank(1, 5, "last", "g", "wash hands")),
    "warmside_label_lines": (
        LabelLine,
        {"animal_id": 1, "on": DAY},
        LabelLine("good.line", "a line"),
    ),
    "warmside_report_sections": (
        Section,
        {"animal_id": 1, "on": DAY},
        Section("A part", words("told")),
    ),
    "warmside_expected_value": (
        Estimate,
        {"what": "mass", "animal_id": 1, "on": DAY},
        Estimate(400.0, 380.0, 420.0, Unit.MASS, RULE),
    ),
}
INTEGRAL = "warmside_events_recorded"


def raises(**_: Any) -> list[object]:
    raise RuntimeError("the lamp\nbroke")


def raises_late() -> Iterator[object]:
    raise KeyError("late")
    yield


def gives_text() -> list[str]:
    return ["text"]


def gives_a_number() -> int:
    return 3


def asks_for_a_table_that_is_not_there(book: Any) -> list[object]:
    return list(book.rows(select(column("x")).select_from(table("nowhere"))))


BAD: dict[str, tuple[Callable[..., Any], str]] = {
    "raises": (lambda: raises(), "RuntimeError: the lamp broke"),
    "raises late": (raises_late, "KeyError: 'late'"),
    "wrong type": (gives_text, "TypeError: gave str, "),
    "no list at all": (gives_a_number, "TypeError: 'int' object is not iterable"),
}


@pytest.fixture
def ember(keeper: Keeper) -> Keeper:
    """A keeper with an animal in an enclosure."""
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


def enable_by_hand(keeper: Keeper, *names: str) -> None:
    """Note plugins as enabled that could not, or need not, be enabled by command."""
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.executemany(
            "INSERT INTO plugin_state (name, enabled, distribution, version, settings) "
            "VALUES (?, 1, '', '', '{}')",
            [(n,) for n in names],
        )


def plugin_with(
    name: str, hook: str, function: Callable[..., Any]
) -> AbstractContextManager[Manifest]:
    """A throw-away plugin with one hook."""
    hooks: dict[str, Any] = {hook: function}
    return throw_away_plugin(name, **hooks)


def rows_of(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return list(connection.iterdump())


# observers


def test_every_hook_is_tried_here() -> None:
    specified = {name for name in vars(Hooks) if name.startswith("warmside_")}
    assert specified == {*OBSERVERS, INTEGRAL}


@pytest.mark.parametrize("bad", BAD)
@pytest.mark.parametrize("hook", [h for h in OBSERVERS if h != "warmside_event_kinds"])
def test_a_plugin_that_fails_in_an_observer_costs_only_its_own_items(
    ember: Keeper, hook: str, bad: str
) -> None:
    of, arguments, good = OBSERVERS[hook]
    function, told = BAD[bad]
    with (
        plugin_with("alder", hook, lambda: [good]) as first,
        plugin_with("birch", hook, function) as broken,
        plugin_with("cedar", hook, lambda: (good,)) as last,
        ember.book() as book,
    ):
        host = Host([first, broken, last])
        got = host.collect(hook, of, book=book, **arguments)
        again = host.collect(hook, of, book=book, **arguments)
    assert got == again == [("alder", good), ("cedar", good)]
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
        return [Task(book.animals[1].name, DAY, RULE, 1)]

    with (
        throw_away_plugin("alder", warmside_tasks=asks_for_a_table_that_is_not_there) as bad,
        throw_away_plugin("birch", warmside_tasks=reads) as good,
        ember.book() as book,
    ):
        host = Host([bad, good])
        (found,) = host.collect("warmside_tasks", Task, book=book, on=DAY)
    assert found[1].what == "Ember"
    assert "no such table: nowhere" in host.failures[0].error


def test_an_observer_cannot_write(ember: Keeper) -> None:
    def writes(book: Any) -> list[Task]:
        book._connection.exec_driver_sql("UPDATE animal SET name = 'hacked'")
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
        ("warmside_findings", "report EMB"),
        ("warmside_event_kinds", "animal list"),
    ],
)
def test_the_command_goes_on_and_the_failure_is_said_once(
    ember: Keeper, hook: str, command: str
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


def test_what_failed_is_in_the_list_of_plugins_and_in_the_check(ember: Keeper) -> None:
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
def test_a_plugin_that_fails_in_an_integral_hook_stops_the_step(ember: Keeper, bad: str) -> None:
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


def test_a_plugin_may_refuse_a_step_with_a_reason_of_its_own(ember: Keeper) -> None:
    def refuse(events: Any) -> list[NewEvent]:
        raise BadInput("412 g is too much for the shelf; weigh again")

    with throw_away_plugin("birch", warmside_events_recorded=refuse):
        enable_by_hand(ember, "birch")
        refused = ember.run("record", "weighed", "EMB=412g", ok=False)
    assert (refused.code, refused.stderr) == (
        2,
        "warmside: 412 g is too much for the shelf; weigh again\n",
    )


def test_reactions_see_the_step_but_not_each_other(ember: Keeper) -> None:
    seen: dict[str, list[str]] = {}

    def react(name: str) -> Callable[..., list[NewEvent]]:
        def hook(book: Any, events: Any) -> list[NewEvent]:
            assert book.events("weighed", animal=1), "what the step wrote is in the book"
            seen[name] = [e.kind for e in events]
            return [NewEvent("observed", DAY, {"what": name}, 1)]

        return hook

    with (
        throw_away_plugin("alder", warmside_events_recorded=react("alder")),
        throw_away_plugin("birch", warmside_events_recorded=react("birch")),
    ):
        enable_by_hand(ember, "birch", "alder")
        said = ember.json("record", "weighed", "EMB=412g")
        assert seen == {"alder": ["weighed"], "birch": ["weighed"]}
        assert [r["what"] for r in said["recorded"]] == [
            "weighed: 412 g",
            "observed: alder",
            "observed: birch",
        ]
        ember.run("undo")
        assert [e["what"] for e in ember.json("history")["events"]] == ["here already"]


# loading


def loaded_alone(manifest: Manifest) -> str:
    """Why the plugin could not be loaded; nothing of it is at work."""
    host = Host([manifest])
    assert host.manifests == {}
    for hook, (of, arguments, _) in OBSERVERS.items():
        assert host.collect(hook, of, book=None, **arguments) == []
    (failure,) = host.failures
    return failure.error


def test_an_unknown_hook_is_found_at_loading() -> None:
    with throw_away_plugin("birch", warmside_taks=lambda: [WEIGH]) as manifest:
        assert loaded_alone(manifest) == "there is no hook warmside_taks"


def test_an_unknown_argument_is_found_at_loading_and_nothing_of_the_plugin_stays() -> None:
    with throw_away_plugin(
        "birch",
        warmside_event_kinds=lambda: [],
        warmside_care_order=lambda: [CareRank(1, 1, "")],
        warmside_tasks=lambda bok: [],
    ) as manifest:
        assert "bok" in loaded_alone(manifest)


def test_a_hook_cannot_wrap_other_plugins() -> None:
    module = types.ModuleType("warmside_wrapping_plugin")

    def warmside_tasks() -> Iterator[None]:
        yield

    marked = pluggy.HookimplMarker("warmside")(hookwrapper=True)(warmside_tasks)
    module.warmside_tasks = marked  # type: ignore[attr-defined]
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(sys.modules, module.__name__, module)
        told = loaded_alone(Manifest("birch", "", HOOK_LEVEL, module.__name__))
    assert told == "warmside_tasks: a hook cannot wrap other plugins"


def test_hooks_that_do_not_import_are_named() -> None:
    told = loaded_alone(Manifest("birch", "", HOOK_LEVEL, "no_such_module_of_birch"))
    assert told.startswith("ModuleNotFoundError: No module named 'no_such_module_of_birch'")


@pytest.mark.parametrize(
    ("level", "usable"),
    [((1, 0), True), ((1, 1), False), ((2, 0), False), ((0, 9), False)],
)
def test_hook_levels(level: tuple[int, int], usable: bool) -> None:
    """The breaking part must be ours; the additive part at most ours."""
    assert HOOK_LEVEL == (1, 0), "change the cases with the level"
    manifest = Manifest("birch", "", level, "x")
    if usable:
        check_level(manifest)
    else:
        with pytest.raises(BadPlugin, match=r"needs hook level \d\.\d, this is 1\.0; install a"):
            check_level(manifest)


@pytest.mark.parametrize(
    ("found", "told"),
    [
        ("text", "its entry point gives str, not a Manifest"),
        (Manifest("other", "", HOOK_LEVEL, "x"), "its manifest calls itself 'other'"),
    ],
)
def test_what_is_no_manifest_of_that_name_is_refused(found: object, told: str) -> None:
    with pytest.raises(BadPlugin, match=told):
        check_manifest("birch", found)


@pytest.mark.parametrize("name", ["Birch", "birch_tree", "2birch", "birch-tree", ""])
def test_a_plugins_name_is_lower_case_letters_and_digits(name: str) -> None:
    with pytest.raises(BadPlugin, match="a plugin's name is"):
        check_manifest(name, Manifest(name, "", HOOK_LEVEL, "x"))


def broken_import(patch: pytest.MonkeyPatch, folder: Path) -> str:
    (folder / "warmside_broken_birch.py").write_text("1 / 0\n")
    patch.syspath_prepend(str(folder))
    return "warmside_broken_birch:MANIFEST"


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda p, f: "warmside_gone_birch:MANIFEST", "does not import: ModuleNotFoundError"),
        (broken_import, "does not import: ZeroDivisionError: division by zero"),
        (lambda p, f: "warmside.core:__version__", "its entry point gives str, not a Manifest"),
        (lambda p, f: "warmside.core:nothing", "does not import: AttributeError"),
    ],
    ids=["missing", "raises", "wrong type", "no such name"],
)
def test_an_enabled_plugin_that_does_not_load_is_named_and_the_rest_works(
    ember: Keeper,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    make: Callable[[pytest.MonkeyPatch, Path], str],
    told: str,
) -> None:
    monkeypatch.setitem(BUILT_IN, "birch", make(monkeypatch, tmp_path))
    with throw_away_plugin("alder", warmside_tasks=lambda: [WEIGH]):
        enable_by_hand(ember, "alder", "birch")
        said = ember.run("today")
        assert "weigh" in said.stdout
        assert said.stderr.startswith(f"warning: plugin birch failed in loading: {told}")
        assert said.stderr.count("\n") == 1
        ember.run("record", "weighed", "EMB=412g")
        assert ember.run("--strict", "today", ok=False).code == 1
        listed = {p["name"]: p for p in ember.json("plugin", "list")["plugins"]}
        assert told in listed["birch"]["problem"]
        checks = ember.run("file", "check", "--json", ok=False).json["checks"]
        assert told in {c["what"]: c["problem"] for c in checks}["plugin birch"]
    refused = ember.run("plugin", "enable", "birch", ok=False)
    assert refused.code == 4


def test_a_plugin_that_is_not_installed_says_so_and_can_be_disabled(ember: Keeper) -> None:
    enable_by_hand(ember, "birch")
    said = ember.run("today")
    assert said.stderr == (
        "warning: plugin birch failed in loading: is enabled in this file but not installed; "
        "install it, or plugin disable it; the rest went on; more: warmside plugin show birch\n"
    )
    ember.run("plugin", "disable", "birch")
    assert ember.run("today").stderr == ""
    assert ember.run("plugin", "enable", "birch", ok=False).stderr.startswith("warmside: plugin b")


def test_two_packages_that_offer_one_name_are_both_named(monkeypatch: pytest.MonkeyPatch) -> None:
    offers = [
        Installed("birch", "one:MANIFEST", "birch-one", "1"),
        Installed("birch", "two:MANIFEST", "birch-two", "2"),
    ]
    monkeypatch.setattr(discovery, "installed", lambda: {"birch": offers})
    with pytest.raises(BadPlugin, match="offered by two packages, birch-one and birch-two; unin"):
        manifest_of("birch")


def test_the_built_in_plugins_are_those_of_the_entry_points() -> None:
    assert {
        n: [o.target for o in offers] for n, offers in installed().items() if n in BUILT_IN
    } == {name: [target] for name, target in BUILT_IN.items()}


# two plugins that claim one thing


def brush(name: str) -> dict[str, Any]:
    return {"commands": (Command("brush", "Brushing.", f"warmside_throw_away_{name}:app"),)}


def test_two_plugins_that_claim_one_command_are_both_named(ember: Keeper) -> None:
    with (
        throw_away_plugin("alder", manifest=brush("alder"), warmside_tasks=lambda: [WEIGH]) as one,
        throw_away_plugin("birch", manifest=brush("birch"), warmside_tasks=lambda: [WEIGH]) as two,
    ):
        told = "alder and birch both claim the command 'brush'; disable one"
        for order in ([one, two], [two, one]):
            host = Host(order)
            assert [(f.plugin, f.error) for f in host.failures] == [
                ("alder", told),
                ("birch", told),
            ]
            assert host.manifests == {}
        ember.run("plugin", "enable", "birch")
        refused = ember.run("plugin", "enable", "alder", ok=False)
        assert (refused.code, refused.stderr) == (4, f"warmside: {told}\n")
        enable_by_hand(ember, "alder")
        assert "brush" not in ember.run("--help").stdout, "neither is taken by chance"
        assert ember.run("brush", ok=False).code == 2
        ember.run("plugin", "disable", "birch")
        assert "brush" in ember.run("--help").stdout


def test_a_plugin_cannot_take_a_command_of_warmside_itself(ember: Keeper) -> None:
    claim = {"commands": (Command("today", "Mine.", "x:app"),)}
    with throw_away_plugin("birch", manifest=claim):
        refused = ember.run("plugin", "enable", "birch", ok=False)
    assert (
        refused.code,
        "birch claims 'today', a command of warmside itself" in refused.stderr,
    ) == (
        4,
        True,
    )


@pytest.mark.parametrize("name", ["weighed", "alder.sown", "sown", "birchy.sown"])
def test_a_kind_that_is_not_the_plugins_own_is_refused(name: str) -> None:
    kind = EventKind(name, "sown", Observed)
    with (
        throw_away_plugin("alder", warmside_event_kinds=lambda: []) as other,
        throw_away_plugin("birch", warmside_event_kinds=lambda: [kind]) as manifest,
    ):
        host = Host([other, manifest])
    assert [f.error for f in host.failures] == [
        f"its kind {name!r} is not its own; name it birch.<word>"
    ]
    assert host.kinds.get(name) is not kind


def test_a_kind_given_twice_is_named() -> None:
    kinds = [EventKind("birch.sown", title, Observed) for title in ("sown", "sown again")]
    with throw_away_plugin("birch", warmside_event_kinds=lambda: kinds) as manifest:
        host = Host([manifest])
    assert [f.error for f in host.failures] == ["it gives the kind 'birch.sown' twice"]
    assert host.kinds["birch.sown"].title == "sown"


def revision(folder: Path, name: str, statement: str, patch: pytest.MonkeyPatch) -> dict[str, Any]:
    """The manifest parts of a plugin whose only revision runs one statement."""
    package = folder / f"{name}_revisions"
    package.mkdir()
    (package / "__init__.py").touch()
    (package / f"{name}0001.py").write_text(
        f"from alembic import op\nrevision = '{name}0001'\ndown_revision = None\n"
        f"def upgrade():\n    op.execute({statement!r})\n"
    )
    patch.syspath_prepend(str(folder))
    return {"migrations": package.name, "head": f"{name}0001"}


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("CREATE TABLE alder_leaf (id INTEGER)", "alder_leaf"),
        ("CREATE TABLE animal (id INTEGER)", "animal"),
        ("CREATE TABLE leaf (id INTEGER)", "leaf"),
        ("DROP TABLE alder_leaf", "alder_leaf"),
        ("ALTER TABLE animal ADD COLUMN birch TEXT", "animal"),
    ],
)
def test_a_plugin_makes_tables_of_its_own_name_only(
    ember: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, statement: str, told: str
) -> None:
    first = revision(tmp_path, "alder", "CREATE TABLE alder_leaf (id INTEGER)", monkeypatch)
    second = revision(tmp_path, "birch", statement, monkeypatch)
    with throw_away_plugin("alder", manifest=first), throw_away_plugin("birch", manifest=second):
        ember.run("plugin", "enable", "alder")
        before = rows_of(ember)
        refused = ember.run("plugin", "enable", "birch", ok=False)
        assert (refused.code, refused.stderr.count("\n")) == (5, 1)
        assert "birch" in refused.stderr
        assert told in refused.stderr
        assert rows_of(ember) == before


def test_settings_of_one_name_never_meet(ember: Keeper) -> None:
    setting = Setting("days", "How many.", 30, "common practice, no source", Unit.DAYS, 1, 90)
    parts = {"settings": (setting,)}
    with throw_away_plugin("alder", manifest=parts), throw_away_plugin("birch", manifest=parts):
        ember.run("plugin", "enable", "alder")
        ember.run("plugin", "enable", "birch")
        ember.run("plugin", "set", "birch", "days", "60")
        with ember.book() as book:
            assert (book.setting("alder", "days"), book.setting("birch", "days")) == (30, 60)
        ember.run("plugin", "set", "birch", "days", "default")
        with ember.book() as book:
            assert book.setting("birch", "days") == 30
        ember.run("undo")
        assert ember.json("plugin", "show", "birch")["settings"][0]["value"] == "60"
        for value in ("0", "91", "many", "2.5"):
            assert ember.run("plugin", "set", "birch", "days", value, ok=False).code == 2


@pytest.mark.parametrize(
    ("setting", "value", "allowed"),
    [
        (Setting("a", "", 30, ""), 40, True),
        (Setting("a", "", 30, ""), 40.5, False),
        (Setting("a", "", 30, ""), True, False),
        (Setting("a", "", 1.5, "", least=0, most=2), 2, True),
        (Setting("a", "", 1.5, "", least=0, most=2), 2.5, False),
        (Setting("a", "", 1.5, "", least=0), -1.0, False),
        (Setting("a", "", 1.5, "", most=2), 3.0, False),
        (Setting("a", "", "x", "", choices=("x", "y")), "y", True),
        (Setting("a", "", "x", "", choices=("x", "y")), "z", False),
        (Setting("a", "", True, ""), False, True),
        (Setting("a", "", True, ""), "yes", False),
    ],
)
def test_setting_values_keep_type_and_limits(
    setting: Setting, value: object, allowed: bool
) -> None:
    if allowed:
        got = setting_value(setting, value)
        assert (got, type(got)) == (value, type(setting.default))
    else:
        with pytest.raises(BadInput, match="setting a is"):
            setting_value(setting, value)


# order, choice, state


def test_results_never_depend_on_the_order_of_loading(ember: Keeper) -> None:
    rank = CareRank(1, 3, "one reason", "g", "wash")
    later = CareRank(1, 3, "another reason", "h", "change clothes")
    with (
        throw_away_plugin(
            "alder", warmside_tasks=lambda: [WEIGH], warmside_care_order=lambda: [rank]
        ) as one,
        throw_away_plugin(
            "birch", warmside_tasks=lambda: [LOOK], warmside_care_order=lambda: [later]
        ) as two,
        throw_away_plugin("cedar", warmside_tasks=lambda: raises()) as three,
        ember.book() as book,
    ):
        rounds, failures = [], []
        for order in itertools.permutations([one, two, three]):
            book.host = Host(order)
            rounds.append(round_of(book, DAY))
            failures.append(book.host.failures)
    assert all(r == rounds[0] for r in rounds)
    assert sorted(s.plugin for s in rounds[0]) == ["alder", "birch"]
    assert all(f == failures[0] for f in failures)


def test_plugins_are_left_out_for_one_command_only(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    assert "rhythm" in keeper.run("--help").stdout
    assert "rhythm" not in keeper.run("--no-plugins", "--help").stdout
    assert keeper.run("--without", "rhythm", "rhythm", "list", ok=False).code == 2
    assert keeper.run("rhythm", "list").code == 0


def test_a_plugin_to_leave_out_that_is_not_enabled_is_a_slip(keeper: Keeper) -> None:
    refused = keeper.run("--without", "rythm", "today", ok=False)
    assert (refused.code, refused.stderr.count("\n")) == (3, 1)
    assert "rythm" in refused.stderr


def test_disabling_keeps_the_data_and_enabling_finds_them(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("rhythm", "set", "weighed", "--every", "30")
    said = keeper.run("plugin", "disable", "rhythm")
    assert "its data stay in the file" in said.stdout
    assert read_state(keeper.path).enabled == ()
    assert read_state(keeper.path).revisions["rhythm"] == "rhythm0001"
    listed = {p["name"]: p["state"] for p in keeper.json("plugin", "list")["plugins"]}
    assert listed["rhythm"] == "disabled, data kept"
    assert keeper.run("rhythm", "list", ok=False).code == 2
    keeper.run("plugin", "enable", "rhythm")
    assert keeper.json("rhythm", "list")["rhythms"][0]["every_days"] == 30


def test_enabling_and_disabling_are_undone_like_anything_else(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("plugin", "disable", "rhythm")
    keeper.run("undo")
    assert read_state(keeper.path).enabled == ("rhythm",)
    keeper.run("undo")
    assert read_state(keeper.path).enabled == ()
    keeper.run("plugin", "enable", "rhythm")
    assert read_state(keeper.path).enabled == ("rhythm",)


def test_forgetting_exports_then_drops_after_the_name_was_typed(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("rhythm", "set", "weighed", "--every", "30")
    archive = tmp_path / "rhythm.zip"
    forget = ("plugin", "forget", "rhythm", "--to", str(archive))
    assert keeper.run(*forget, "--name", "rhythm", ok=False).code == 4, "it is enabled"
    keeper.run("plugin", "disable", "rhythm")
    for wrong in ((), ("--name", "rythm")):
        refused = keeper.run(*forget, *wrong, ok=False)
        assert (refused.code, "add --name rhythm" in refused.stderr) == (4, True)
    assert not archive.exists()
    keeper.run(*forget, "--name", "rhythm")
    with zipfile.ZipFile(archive) as zipped:
        assert b'"days": 30' in zipped.read("tables/rhythm_interval.jsonl")
    state = read_state(keeper.path)
    assert (state.known, "rhythm" in state.revisions) == ((), False)
    assert "rhythm_interval" not in "".join(rows_of(keeper))
    assert keeper.run("undo", ok=False).code == 3, "undo cannot write into tables that are gone"
    keeper.run("plugin", "enable", "rhythm")
    assert keeper.json("rhythm", "list")["rhythms"] == []
    assert keeper.run("plugin", "forget", "weight", "--name", "weight", ok=False).code == 4
