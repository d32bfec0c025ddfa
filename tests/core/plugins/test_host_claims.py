"""Two plugins that claim one thing are both named; settings never meet."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.shared import Observed
from warmside.core.plugins.hook_values import Task
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import Command, Setting, setting_value
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.core.values.errors import BadInput
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
WEIGH = Task("weigh", DAY, RULE, About(1), settles="weighed")
LOOK = Task("look at it", DAY, RULE, About(1), settles="observed")


def rows_of(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return list(connection.iterdump())


def brush(name: str) -> dict[str, Any]:
    return {"commands": (Command("brush", "Brushing.", f"warmside_throw_away_{name}:app"),)}


def test_two_plugins_that_claim_one_command_are_both_named(
    ember: Keeper, enable_by_hand: Callable[..., None]
) -> None:
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
        refused = ember.run("brush", ok=False)
        assert (refused.code, refused.stderr) == (4, f"warmside: {told}\n")
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
    package = folder / f"{name}_claims"
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
        with ember.ask() as ask:
            assert (ask.setting("alder", "days"), ask.setting("birch", "days")) == (30, 60)
        ember.run("plugin", "set", "birch", "days", "default")
        with ember.ask() as ask:
            assert ask.setting("birch", "days") == 30
        ember.run("undo")
        shown = ember.json("plugin", "show", "birch")["settings"][0]
        assert (shown["value"], shown["stored"], shown["unit"]) == ("60 days", 60, "days")
        assert "days is now 14 days" in ember.run("plugin", "set", "birch", "days", "2w").stdout
        for value in ("0", "91", "many", "2.5", "3 months"):
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
