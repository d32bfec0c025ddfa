"""Prompts and progress on a real terminal; every prompt has an option."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from warmside.core.values.display import Display
from warmside.testing import Keeper

pty = pytest.importorskip("pty", reason="needs a POSIX terminal")


def type_on_terminal(arguments: list[str], typed: str, path: Path) -> tuple[int, str]:
    """Run the program on a pseudo-terminal and type; returns exit code and screen."""
    answer = typed.encode()
    process, terminal = pty.fork()
    if process == 0:
        os.environ.update(WARMSIDE_COLLECTION=str(path), TERM="dumb", COLUMNS="80")
        os.execv(sys.executable, [sys.executable, "-m", "warmside", *arguments])
    os.write(terminal, answer)
    screen = b""
    while True:
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            break
        if not piece:
            break
        screen += piece
    _, status = os.waitpid(process, 0)
    os.close(terminal)
    return os.waitstatus_to_exitcode(status), screen.decode()


def test_new_asks_what_it_needs(tmp_path: Path) -> None:
    path = tmp_path / "asked.warmside"
    code, screen = type_on_terminal(["new"], "Shelf\nEurope/Vienna\nimperial\n", path)
    assert code == 0, screen
    assert "Home time zone" in screen
    with Keeper(path).book() as book:
        assert (book.home.name, book.home.zone.key) == ("Shelf", "Europe/Vienna")
        assert book.home.display == Display.IMPERIAL


def test_new_without_a_terminal_names_the_option(tmp_path: Path) -> None:
    result = Keeper(tmp_path / "n.warmside").run("new", "--zone", "Europe/Vienna", ok=False)
    assert result.code == 2 and "--name" in result.stderr


def test_undo_shows_the_step_and_takes_no_for_an_answer(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low shelf")
    code, screen = type_on_terminal(["undo"], "n\n", keeper.path)
    assert code == 4
    assert "entered enclosure Low shelf" in screen
    assert len(keeper.json("enclosure", "list")["enclosures"]) == 1
