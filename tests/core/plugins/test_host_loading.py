"""Plugins that cannot be loaded are named, with what to do; nothing of them is at work."""

from __future__ import annotations

import sys
import types
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pluggy
import pytest

from warmside.core.plugins import discovery
from warmside.core.plugins.discovery import BUILT_IN, Installed, installed, manifest_of
from warmside.core.plugins.hook_values import CareRank, Task
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import (
    HOOK_LEVEL,
    BadPlugin,
    Manifest,
    check_level,
    check_manifest,
)
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
WEIGH = Task("weigh", DAY, RULE, About(1), settles="weighed")
LOOK = Task("look at it", DAY, RULE, About(1), settles="observed")


def loaded_alone(manifest: Manifest) -> str:
    """Why the plugin could not be loaded; nothing of it is at work."""
    host = Host([manifest])
    assert host.manifests == {}
    ask = {"book": None, "on": DAY}
    assert host.collect("warmside_tasks", Task, **ask) == []
    assert host.collect("warmside_care_order", CareRank, **ask) == []
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
    [((2, 0), True), ((2, 2), True), ((2, 3), False), ((3, 0), False), ((1, 0), False)],
)
def test_hook_levels(level: tuple[int, int], usable: bool) -> None:
    """The breaking part must be ours; the additive part at most ours."""
    assert HOOK_LEVEL == (2, 2), "change the cases with the level"
    manifest = Manifest("birch", "", level, "x")
    if usable:
        check_level(manifest)
    else:
        what = "what changed since" if level[0] < 2 else "install a"
        with pytest.raises(BadPlugin, match=rf"needs hook level \d\.\d, this is 2\.2; {what}"):
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
    enable_by_hand: Callable[..., None],
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


def test_a_plugin_that_is_not_installed_says_so_and_can_be_disabled(
    ember: Keeper, enable_by_hand: Callable[..., None]
) -> None:
    enable_by_hand(ember, "birch")
    said = ember.run("today")
    assert said.stderr == (
        "warning: plugin birch failed in loading: is used by this file but not installed; "
        "install it, or leave it out: warmside plugin disable birch; the rest went on; "
        "more: warmside plugin show birch\n"
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
