"""Ctrl-C, a closed pipe, an ended input: one line at most, the right code, nothing half done."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest
from tests.piped import piped
from tests.typed_on_terminal import CTRL_C, type_on_terminal

from warmside.testing import Keeper

if os.name != "posix":
    pytest.skip("needs SIGINT", allow_module_level=True)

# A shell lets its background jobs ignore Ctrl-C, and what they start inherits that.
CAN_BE_INTERRUPTED = """
import signal
signal.signal(signal.SIGINT, signal.default_int_handler)
"""
IN_A_HOOK = """
import os, sys, time
from warmside.cli.entry import main
from warmside.core.plugins.hookspecs import hookimpl
from warmside.testing import throw_away_plugin

def wait(*_):
    os.write(1, b"waiting\\n")  # what a plugin prints does not reach the answer
    while True:
        time.sleep(60)

with throw_away_plugin("slow", **{sys.argv[1]: lambda: wait()}):
    sys.exit(main(sys.argv[2:]))
"""
IMPORTING = """
import importlib.abc, sys, time

class Waits(importlib.abc.MetaPathFinder):
    def find_spec(self, name, *_):
        if name == sys.argv[1]:
            print("waiting", flush=True)
            while True:
                time.sleep(60)

sys.meta_path.insert(0, Waits())
from warmside.cli.entry import main
sys.exit(main(sys.argv[2:]))
"""


def interrupt(keeper: Keeper, program: str, *arguments: str) -> str:
    """Press Ctrl-C once the command waits; the one line that it said."""
    process = keeper.start(*arguments, program=("-c", CAN_BE_INTERRUPTED + program))
    assert process.stdout
    while "waiting" not in process.stdout.readline():
        assert process.poll() is None, process.communicate()[1]
    process.send_signal(signal.SIGINT)
    _, told = process.communicate()
    assert process.returncode == 130, told
    (line,) = told.splitlines()
    assert line.startswith("warmside: interrupted")
    return line


@pytest.fixture
def slow(stocked: Keeper) -> Keeper:
    """The stocked collection, with a plugin enabled that can be made to wait."""
    from warmside.testing import throw_away_plugin

    with throw_away_plugin("slow"):
        stocked.run("plugin", "enable", "slow")
    return stocked


def test_interrupting_a_question(slow: Keeper) -> None:
    interrupt(slow, IN_A_HOOK, "warmside_tasks", "today")


def test_interrupting_a_write_leaves_nothing_of_it(slow: Keeper) -> None:
    before = slow.json("history")
    line = interrupt(slow, IN_A_HOOK, "warmside_events_recorded", "record", "weighed", "EMB=410g")
    assert "nothing more was written" in line
    assert slow.json("history") == before
    assert not slow.path.with_name(f"{slow.path.name}-journal").exists()
    assert slow.run("file", "check", ok=False).stderr.count("\n") <= 1


@pytest.mark.parametrize("module", ["typer", "warmside.core.record.book", "warmside.cli.running"])
def test_interrupting_the_start(stocked: Keeper, module: str) -> None:
    interrupt(stocked, IMPORTING, module, "today")


def test_a_reader_who_has_seen_enough(stocked: Keeper) -> None:
    for n in range(3):
        stocked.run("record", "observed", "EMB", "--what", "x" * 300, "--note", str(n))
    for arguments in (("history",), ("--help",), ("--version",), ("today", "--json")):
        process = stocked.start(*arguments)
        assert process.stdout
        process.stdout.close()
        process.wait()
        assert process.stderr and process.stderr.read() == ""
        process.stderr.close()
        assert process.returncode in (0, 1)


def test_a_question_that_nobody_answers_names_its_option(stocked: Keeper) -> None:
    assert "--yes" in stocked.run_apart("file", "restore").complaint(4)


def test_a_pipe_that_never_ends_is_refused_at_the_limit(
    stocked: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A kilobyte stands for the 64 MB; the writer may be gone when the sheet is looked at again."""
    monkeypatch.setattr("warmside.core.csv.rows.LARGEST_FILE", 1000)
    with piped(tmp_path / "pipe", b"2026-01-01,EMB,410\n" * 400) as pipe:
        line = stocked.run("import", pipe, "--kind", "weighed", ok=False).complaint(2)
    assert "larger than" in line


def test_a_sheet_comes_through_a_pipe(stocked: Keeper, tmp_path: Path) -> None:
    with piped(tmp_path / "pipe", b"date,animal,mass\n2026-01-01,EMB,410 g\n") as pipe:
        stocked.run("import", pipe, "--kind", "weighed")
    assert "410 g" in stocked.run("history").stdout


def test_a_loggers_file_is_no_pipe(keeper: Keeper, tmp_path: Path) -> None:
    """It is read twice; so is said, and what to do."""
    keeper.run("plugin", "enable", "habitat")
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("habitat", "logger", "LOW", "grey", "--probe", "warm=warm side")
    with piped(tmp_path / "pipe", b"time,warm\n2026-03-01 10:00,25\n") as pipe:
        line = keeper.run("habitat", "read", "grey", pipe, ok=False).complaint(2)
    assert "it is a pipe; save what comes out of it" in line


def test_ctrl_c_while_nothing_comes_through_a_pipe(stocked: Keeper, tmp_path: Path) -> None:
    """Pressed on a terminal, where a line says what is waited for: nobody writes into the pipe."""
    os.mkfifo(tmp_path / "pipe")
    before = stocked.json("history")
    code, screen = type_on_terminal(
        ["import", str(tmp_path / "pipe"), "--kind", "weighed"],
        CTRL_C,
        stocked.path,
        once="Ctrl-C stops",
        terminal_type="xterm",
    )
    assert "nothing has come yet" in screen
    assert code == 130
    assert "warmside: interrupted; nothing more was written" in screen
    assert "Traceback" not in screen
    assert stocked.json("history") == before
