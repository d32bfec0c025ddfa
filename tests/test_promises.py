"""Each promise names a test that there is, and the recovery walk is walked as it is printed."""

from __future__ import annotations

import ast
import re
import shlex
from pathlib import Path

import pytest

from sources import imports, sources
from warmside.testing import Keeper, new_keeper

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "examples/PROMISES.md").read_text(encoding="utf-8")
HELD = re.compile(r"\(`(tests/[\w/]+\.py)::(test_\w+)`\)")
NETWORK = {"socket", "ssl", "http", "urllib.request", "requests", "ftplib", "smtplib", "httpx"}
SERVING = "http.server"  # of a page for this computer alone
LISTENS = "cli/warmside/page/serving.py"  # when the keeper starts the page


def promises() -> list[str]:
    """The sentences that promise something, a line each."""
    return [line for line in TEXT.splitlines() if line.startswith("- ")]


@pytest.mark.parametrize("line", promises(), ids=lambda x: str(x)[2:50])
def test_each_promise_is_held_by_a_test_that_there_is(line: str) -> None:
    held = HELD.findall(line)
    assert held or "No test can hold" in line
    for file, name in held:
        tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
        assert name in {n.name for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)}, name


def test_nothing_of_ours_imports_a_network() -> None:
    for folder in ("core", "cli", "plugins", "migrations"):
        for path in sources(folder):
            names = {n for n, _ in imports(path)}
            reaching = {n for n in names if any(n == w or n.startswith(f"{w}.") for w in NETWORK)}
            allowed = {"socket"} if path == ROOT / LISTENS else set()
            assert {n for n in reaching if not n.startswith(SERVING)} <= allowed, path


def test_the_page_answers_and_calls_nobody() -> None:
    """The one that listens: it accepts; its one far end is of a datagram socket that sends none."""
    tree = ast.parse((ROOT / LISTENS).read_text(encoding="utf-8"))
    calls = {
        n.func.attr
        for n in ast.walk(tree)
        if isinstance(n, ast.Call) and isinstance(n.func, ast.Attribute)
    }
    assert calls.isdisjoint({"send", "sendall", "sendto", "create_connection", "getaddrinfo"})
    looking = ast.unparse(next(n for n in ast.walk(tree) if _named(n, "network_address")))
    assert ast.unparse(tree).count(".connect(") == looking.count(".connect(") == 1
    assert "SOCK_DGRAM" in looking


def _named(node: ast.AST, name: str) -> bool:
    return isinstance(node, ast.FunctionDef) and node.name == name


def walks() -> dict[str, list[list[str]]]:
    """The commands of each walk, by its first word."""
    part = TEXT.partition("## The recovery walk")[2]
    found = re.findall(r"^(\w+) \(.*?```console\n(.*?)```", part, flags=re.S | re.M)
    return {name: [shlex.split(line)[2:] for line in block.splitlines()] for name, block in found}


@pytest.fixture
def three_days(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    monkeypatch.chdir(tmp_path)
    keeper = new_keeper(tmp_path)
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    for mass in (410, 420):
        keeper.pass_days(1)
        keeper.run("record", "weighed", f"EMB={mass}g")
    return keeper


def test_the_walks_are_of_five_lines_at_most() -> None:
    assert {name: len(lines) <= 5 for name, lines in walks().items()} == {
        "Lost": True,
        "Damaged": True,
        "Mistaken": True,
    }


def test_a_lost_collection_comes_back(three_days: Keeper) -> None:
    three_days.path.unlink()
    for words in walks()["Lost"]:
        three_days.run(*words)
    assert "410 g" in three_days.run("history").stdout


def test_a_damaged_collection_is_saved_and_put_back(three_days: Keeper) -> None:
    content = bytearray(three_days.path.read_bytes())
    content[:4096] = b"\xff" * 4096
    three_days.path.write_bytes(content)
    first, *others = walks()["Damaged"]
    assert three_days.run(*first, ok=False).code == 5
    for words in others:
        three_days.run(*words)
    saved = Keeper(three_days.path.with_name("saved.warmside"), three_days.now)
    assert "420 g" in saved.run("history").stdout, "what was recorded since the copy is saved"


def test_a_mistake_is_taken_back(three_days: Keeper) -> None:
    for words in walks()["Mistaken"]:
        told = three_days.run(*words)
    assert "410 g" in told.stdout and "420 g" not in told.stdout
