"""Which plugins are at work: order, choice for one command, disabling and forgetting."""

from __future__ import annotations

import itertools
import sqlite3
import zipfile
from contextlib import closing
from datetime import date
from pathlib import Path

from warmside.core.asking.ask import Ask
from warmside.core.file.state import read_state
from warmside.core.plugins.hook_values import CareRank, Task
from warmside.core.plugins.host import Host
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, new_keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
WEIGH = Task("weigh", DAY, RULE, About(1), settles="weighed")
LOOK = Task("look at it", DAY, RULE, About(1), settles="observed")


def rows_of(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return list(connection.iterdump())


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
        throw_away_plugin("cedar", warmside_tasks=lambda: 1 / 0) as three,
        ember.book() as book,
    ):
        rounds, failures = [], []
        for order in itertools.permutations([one, two, three]):
            ask = Ask(book, Host(order))
            rounds.append(ask.round(DAY))
            failures.append(ask.host.failures)
    assert all(r == rounds[0] for r in rounds)
    assert sorted(s.plugin for s in rounds[0]) == ["alder", "birch"]
    assert all(f == failures[0] for f in failures)


def test_plugins_are_left_out_for_one_command_only(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    assert "rhythm" in keeper.run("--help").stdout
    assert "rhythm" not in keeper.run("--no-plugins", "--help").stdout
    left_out = keeper.run("--without", "rhythm", "rhythm", "list", ok=False)
    assert (left_out.code, "plugin rhythm is not at work" in left_out.stderr) == (4, True)
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
    assert read_state(keeper.path).revisions["rhythm"] == "rhythm0002"
    listed = {p["name"]: p["state"] for p in keeper.json("plugin", "list")["plugins"]}
    assert listed["rhythm"] == "disabled, data kept"
    assert keeper.run("rhythm", "list", ok=False).code == 4
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
