"""A third party's plugin that raises in each hook, installed as a package.

What could end the program, or keep it from starting, is tried in a process of its own.
"""

from __future__ import annotations

import importlib
import shutil
import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from warmside.api import OWN_RECORDS, About, Answers, Basis, Task, Unit
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.manifest import HOOK_LEVEL
from warmside.testing import Keeper, Result, throw_away_plugin

HOOKS = sorted(name for name in vars(Hooks) if name.startswith("warmside_"))
INTEGRAL = "warmside_events_recorded"
REACTING = {
    INTEGRAL: ("record", "weighed", "EMB=410g"),
    "warmside_rows_changed": ("animal", "change", "EMB", "--note", "shy"),
}
FAULTS = {
    "raises": "    raise RuntimeError('line one\\nline two')\n",
    "gives the wrong type": "    return ['not what is asked for']\n",
    "raises on the way": "    yield from ()\n    raise KeyError('gone')\n",
    "leaves the program": "    raise SystemExit(3)\n",
}


@pytest.fixture(scope="session")
def with_faulty(shelf: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder `site` of a third party's plugin, and beside it the collection that enabled it."""
    folder = tmp_path_factory.mktemp("faulty")
    site = folder / "site"
    about = site / "warmside_faulty-1.0.dist-info"
    about.mkdir(parents=True)
    (about / "METADATA").write_text("Metadata-Version: 2.1\nName: warmside-faulty\nVersion: 1.0\n")
    (about / "entry_points.txt").write_text("[warmside.plugins]\nfaulty = faulty:MANIFEST\n")
    (site / "faulty").mkdir()
    (site / "faulty" / "__init__.py").write_text(
        "from warmside.api import Command, Manifest\n"
        f"MANIFEST = Manifest('faulty', 'fails', {HOOK_LEVEL}, 'faulty.hooks', "
        "commands=(Command('faulty', 'Fail.', 'faulty.commands:app'),))\n"
    )
    write(folder, "hooks", "")
    shutil.copytree(shelf.path.parent, folder / "shelf")
    keeper = Keeper(folder / "shelf" / shelf.path.name, shelf.now)
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(site)
        run(keeper, "plugin", "enable", "faulty")
        keeper.run("plugin", "enable", "rhythm")
        keeper.run("rhythm", "set", "weighed", "--every", "1")
    return folder


@pytest.fixture
def faulty(
    with_faulty: Path, shelf: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Keeper:
    """The stocked collection with the plugins faulty (of a third party) and rhythm enabled."""
    shutil.copytree(with_faulty, tmp_path, dirs_exist_ok=True)
    monkeypatch.syspath_prepend(tmp_path / "site")
    importlib.invalidate_caches()
    return Keeper(tmp_path / "shelf" / shelf.path.name, shelf.now)


def write(tmp_path: Path, module: str, text: str) -> None:
    """Give the plugin this code."""
    (tmp_path / "site" / "faulty" / f"{module}.py").write_text(text)


def run(keeper: Keeper, *arguments: str) -> Result:
    """Run a command for which the plugin is imported anew."""
    importlib.invalidate_caches()
    for module in [m for m in sys.modules if m.partition(".")[0] == "faulty"]:
        del sys.modules[module]
    return keeper.run(*arguments, ok=False)


def hook(name: str, body: str) -> str:
    """A module with one hook."""
    header = f"from warmside.api import hookimpl\n\n@hookimpl\ndef {name}():\n"
    return header + body


def asked(hook: str) -> tuple[str, ...]:
    """A command that calls the hook."""
    whole = {"warmside_report_sections": ("report",), "warmside_sheet_sections": ("sheet", "vet")}
    return (*whole[hook], "EMB") if hook in whole else ("today",)


def warned(result: Result) -> str:
    """The one line about the plugin, of a command that went on."""
    assert result.code == 0, result.stderr
    (line,) = result.stderr.splitlines()
    assert line.startswith("warning: plugin faulty failed in ")
    assert "warmside plugin show faulty" in line
    return line


UNKNOWN = "warmside_unknown_words"
ASKED_FOR = ("warmside_answer", "warmside_label_lines")
OTHERWISE = (*REACTING, *ASKED_FOR, *("warmside_check", "warmside_settle", UNKNOWN))
CALLED_BY_CORE = [h for h in HOOKS if h not in OTHERWISE]


@pytest.mark.parametrize("name", CALLED_BY_CORE)
def test_a_hook_that_raises_costs_only_its_own_items(
    faulty: Keeper, tmp_path: Path, name: str
) -> None:
    write(tmp_path, "hooks", hook(name, FAULTS["raises"]))
    result = run(faulty, *asked(name))
    line = warned(result)
    assert name in line and "RuntimeError: line one line two" in line
    assert "Ember" in result.stdout
    if asked(name) == ("today",):
        assert "weigh" in result.stdout, "the other plugin's task is lost"


@pytest.mark.parametrize("fault", FAULTS)
def test_whatever_it_does_the_rest_goes_on(faulty: Keeper, tmp_path: Path, fault: str) -> None:
    write(tmp_path, "hooks", hook("warmside_findings", FAULTS[fault]))
    assert "warmside_findings" in warned(faulty.run_apart("today"))


def test_one_can_go_on_without_it_or_be_strict(faulty: Keeper, tmp_path: Path) -> None:
    write(tmp_path, "hooks", hook(INTEGRAL, FAULTS["raises"]))
    assert run(faulty, "--without", "faulty", "record", "weighed", "EMB=410g").code == 0
    write(tmp_path, "hooks", hook("warmside_tasks", FAULTS["raises"]))
    assert run(faulty, "--strict", "today").code == 1
    assert run(faulty, "--no-plugins", "--strict", "today").stderr == ""


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("name", REACTING)
def test_a_reaction_that_fails_stops_the_step_and_nothing_is_written(
    faulty: Keeper, tmp_path: Path, name: str, fault: str
) -> None:
    write(tmp_path, "hooks", hook(name, FAULTS[fault]))
    before = faulty.json("history"), faulty.json("animal", "show", "EMB")
    line = run(faulty, *REACTING[name]).complaint(1)
    assert "faulty" in line and "nothing was recorded" in line and "--without faulty" in line
    assert (faulty.json("history"), faulty.json("animal", "show", "EMB")) == before


def test_a_check_that_fails_is_told_among_what_was_checked(faulty: Keeper, tmp_path: Path) -> None:
    write(tmp_path, "hooks", hook("warmside_check", FAULTS["raises"]))
    checked = run(faulty, "file", "check", "--json")
    said = {c["what"]: c["problem"] for c in checked.json["checks"]}
    assert checked.code == 5 and said["plugin rhythm"] == "none"
    assert said["plugin faulty"] == "warmside_check: RuntimeError: line one line two"


def test_a_task_whose_plugin_fails_to_settle_it_is_not_settled(stocked: Keeper) -> None:
    def due(on: date) -> Iterator[Task]:
        yield Task("mist", on, Basis("a whim", OWN_RECORDS), About(animal_id=1))

    def settle() -> None:
        raise RuntimeError("gone")

    with throw_away_plugin("faulty", warmside_tasks=due, warmside_settle=settle):
        stocked.run("plugin", "enable", "faulty")
        before = stocked.json("history")
        line = stocked.run("done", "1", ok=False).complaint(1)
        assert "faulty failed in warmside_settle: RuntimeError: gone" in line
        assert stocked.json("history") == before


@pytest.mark.parametrize(
    ("module", "body"),
    [
        ("__init__", "import no_such_thing\n"),
        ("__init__", "raise SystemExit(3)\n"),
        ("hooks", "def (:\n"),
        ("hooks", "raise SystemExit(3)\n"),
    ],
)
def test_a_plugin_that_does_not_import_is_named(
    faulty: Keeper, tmp_path: Path, module: str, body: str
) -> None:
    write(tmp_path, module, body)
    assert "loading" in warned(faulty.run_apart("today"))


def test_a_plugin_that_does_not_import_is_seen_in_the_list_and_can_be_switched_off(
    faulty: Keeper, tmp_path: Path
) -> None:
    write(tmp_path, "__init__", "import no_such_thing\n")
    listed = run(faulty, "plugin", "list")
    assert listed.code == 0 and "faulty" in listed.stdout and "Traceback" not in listed.stderr
    checked = run(faulty, "file", "check")
    assert checked.code == 5 and "plugin faulty" in checked.stdout
    assert run(faulty, "plugin", "disable", "faulty").code == 0
    assert run(faulty, "today").stderr == ""


@pytest.mark.parametrize("body", ["import no_such_thing\n", "raise SystemExit(3)\n", "app = 1\n"])
def test_a_command_that_cannot_be_loaded_is_one_line(
    faulty: Keeper, tmp_path: Path, body: str
) -> None:
    write(tmp_path, "commands", body)
    assert "'faulty' cannot be loaded" in run(faulty, "faulty").complaint(1)
    assert run(faulty, "--help").code == 0


@pytest.mark.parametrize("body", ["raise RuntimeError('a\\nb')", "1 / 0"])
def test_a_command_that_raises_is_one_line(faulty: Keeper, tmp_path: Path, body: str) -> None:
    write(
        tmp_path,
        "commands",
        f"import typer\napp = typer.Typer()\n@app.command('')\ndef go():\n    {body}\n",
    )
    result = run(faulty, "faulty")
    assert result.code == 1 and "Traceback" not in result.stderr
    assert len(result.stderr.splitlines()) == 1


@pytest.mark.parametrize("name", ASKED_FOR)
def test_hooks_that_other_plugins_ask_for_cost_only_their_items(stocked: Keeper, name: str) -> None:
    def fail() -> None:
        raise RuntimeError("gone")

    hooks: dict[str, Any] = {name: fail}
    declared = {"answers": (Answers("mass", Unit.MASS),)}
    with throw_away_plugin("faulty", manifest=declared, **hooks):
        stocked.run("plugin", "enable", "faulty")
        with stocked.ask() as ask:
            ember, today = About(1), ask.book.today
            if name == "warmside_answer":
                assert ask.answers("mass", ember, today) == []
            else:
                assert ask.label_lines(ember, today) == []
            assert [(f.plugin, f.where) for f in ask.host.failures] == [("faulty", name)]


def test_a_plugin_that_is_gone_leaves_its_file_usable(faulty: Keeper, tmp_path: Path) -> None:
    for entry in (tmp_path / "site").rglob("*.*"):
        if entry.is_file():
            entry.unlink()
    line = warned(run(faulty, "today"))
    assert "not installed" in line and "warmside plugin disable faulty" in line
    assert "not installed" in run(faulty, "plugin", "show", "faulty").stdout
    out = str(tmp_path / "all.zip")
    assert run(faulty, "file", "export", out).code == 0
    assert run(faulty, "file", "backup").code == 0
