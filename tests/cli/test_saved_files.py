"""What a command saves is put over no file that the program did not write."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.typed_on_terminal import type_on_terminal

from warmside.testing import Keeper

SAVING = (("animal", "list", "--save"), ("calendar",))


def name_for(command: tuple[str, ...]) -> str:
    return "round.ics" if command[0] == "calendar" else "animals.txt"


@pytest.mark.parametrize("command", SAVING, ids=lambda c: str(c[0]))
def test_a_file_of_another_program_is_not_written_over(
    mine: Keeper, tmp_path: Path, command: tuple[str, ...]
) -> None:
    target = tmp_path / name_for(command)
    target.write_text("letters to my sister")
    line = mine.run(*command, str(target), ok=False).complaint(4)
    assert f"{target} is there" in line and "--replace" in line
    assert target.read_text() == "letters to my sister"
    mine.run(*command, str(target), "--replace")
    assert "sister" not in target.read_text()


@pytest.mark.parametrize("command", SAVING, ids=lambda c: str(c[0]))
def test_what_was_saved_before_is_saved_anew_unless_it_was_changed_since(
    mine: Keeper, tmp_path: Path, command: tuple[str, ...]
) -> None:
    target = tmp_path / name_for(command)
    for _ in range(2):
        mine.run(*command, str(target))
    target.write_text(target.read_text() + "a note of my own")
    mine.run(*command, str(target), ok=False).complaint(4)
    assert "a note of my own" in target.read_text()


def test_nothing_is_recorded_where_the_answer_cannot_be_saved(mine: Keeper, tmp_path: Path) -> None:
    target = tmp_path / "kept.json"
    target.write_text("{}")
    before = mine.json("history", "EMB")["events"]
    mine.run("record", "weighed", "EMB=500g", "--save", str(target), ok=False).complaint(4)
    assert mine.json("history", "EMB")["events"] == before and target.read_text() == "{}"


def test_on_a_terminal_it_is_asked(
    mine: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in mine.environment.items():
        monkeypatch.setenv(name, value)
    target = tmp_path / "animals.json"
    target.write_text("mine")
    command = ["animal", "list", "--save", str(target)]
    code, screen = type_on_terminal(command, "n\n", mine.path)
    assert (code, target.read_text()) == (4, "mine") and "write over it?" in screen
    code, screen = type_on_terminal(command, "y\n", mine.path)
    assert code == 0 and "animals" in json.loads(target.read_text()), screen
