"""Two programs on one file: each waits its turn, none loses anything, none waits for ever."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager

import pytest

from warmside.core.file import sqlite, state
from warmside.testing import Keeper

EVENTS = 100
WRITER = """
import os, sys
from warmside.cli.entry import main
for n in range(int(sys.argv[2])):
    code = main(["record", "observed", "EMB", "--what", f"{sys.argv[1]} {n}"])
    if code:
        sys.exit(code)
"""


def test_two_processes_writing_at_once_lose_nothing(stocked: Keeper) -> None:
    before = len(stocked.json("history", "--last", "1000")["events"])
    writers = [
        stocked.start(name, str(EVENTS), program=("-c", WRITER)) for name in ("left", "right")
    ]
    told = [w.communicate() for w in writers]
    assert [w.returncode for w in writers] == [0, 0], [err for _, err in told]
    with stocked.book() as book:
        seen = [e.data["what"] for e in book.events("observed")]
        assert sorted(seen) == sorted(f"{w} {n}" for w in ("left", "right") for n in range(EVENTS))
        assert len(book.events()) == before + 2 * EVENTS
        steps = [e.step_id for e in book.events("observed")]
    assert len(set(steps)) == 2 * EVENTS, "two commands share a step"
    assert stocked.run("file", "check").code == 0


@contextmanager
def held(keeper: Keeper, how: str) -> Iterator[None]:
    """Another program that has begun and does not end."""
    with closing(sqlite3.connect(keeper.path, isolation_level=None)) as other:
        other.execute(f"BEGIN {how}")
        yield
        other.execute("ROLLBACK")


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """The program waits a tenth of a second instead of five."""
    monkeypatch.setattr(state, "BUSY_SECONDS", 0.1)
    monkeypatch.setattr(sqlite.open_engine, "__defaults__", (0.1,))


@pytest.mark.usefixtures("impatient")
@pytest.mark.parametrize(
    "arguments",
    [
        ("record", "weighed", "EMB=410g"),
        ("undo",),
        ("redo",),
        ("plugin", "enable", "rhythm"),
        ("file", "restore", "--yes"),
    ],
    ids=" ".join,
)
def test_a_writer_is_told_to_try_again(stocked: Keeper, arguments: tuple[str, ...]) -> None:
    stocked.run("record", "weighed", "EMB=409g")
    if arguments == ("redo",):
        stocked.run("undo")
    with held(stocked, "IMMEDIATE"):
        line = stocked.run(*arguments, ok=False).complaint(75)
        assert "in use by another program" in line and "try again" in line
        assert stocked.run("today").code == 0, "reading must go on meanwhile"
    stocked.run(*arguments)


@pytest.mark.usefixtures("impatient")
@pytest.mark.parametrize(
    "arguments",
    [
        ("today",),
        ("history",),
        ("record", "weighed", "EMB=410g"),
        ("file", "check"),
        ("file", "backup"),
        ("file", "export", "out.zip"),
        ("file", "restore", "--yes"),
        ("rhythm", "list"),
    ],
    ids=" ".join,
)
def test_while_another_commits_everyone_is_told_to_try_again(
    stocked: Keeper, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    monkeypatch.chdir(stocked.path.parent)
    stocked.run("plugin", "enable", "rhythm")
    with held(stocked, "EXCLUSIVE"):
        line = stocked.run(*arguments, ok=False).complaint(75)
        assert "in use by another program" in line and "try again" in line
    stocked.run(*arguments)


@pytest.mark.usefixtures("impatient")
def test_a_reader_in_another_program_holds_no_one_up_before_the_commit(stocked: Keeper) -> None:
    with held(stocked, "DEFERRED"):
        stocked.run("record", "weighed", "EMB=410g")
