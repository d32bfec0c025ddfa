"""What is remembered between prints, and taken back by undo."""

from __future__ import annotations

from pathlib import Path

import pytest
import typer

from warmside.core.session.session import Session
from warmside.testing import Keeper


def places(answer: dict) -> list[int]:
    """The places that were printed on."""
    return [row["place"] for row in answer["labels"]]


@pytest.fixture
def target(tmp_path: Path) -> str:
    """A file to print into."""
    return str(tmp_path / "out.pdf")


def test_the_next_print_may_go_on_where_the_sheet_ended(labelled: Keeper, target: str) -> None:
    first = labelled.run("labels", "print", target)
    assert "--start next" not in first.stdout
    again = labelled.run("labels", "print", target, "--enclosure", "V-01")
    assert "used on the last sheet of a4-3x8: 1-3; to go on there: --start next" in again.stdout
    labelled.run("undo")
    assert places(labelled.json("labels", "print", target, "--start", "next")) == [4, 5, 6]
    more = labelled.json("labels", "print", target, "--start", "next", "--used", "7,9")
    assert places(more) == [8, 10, 11] and more["used"] == "1-11"


def test_each_stock_has_a_memory_of_its_own_and_a_roll_has_none(
    labelled: Keeper, target: str
) -> None:
    labelled.run("labels", "print", target)
    other = labelled.json("labels", "print", target, "--stock", "a4-2x7", "--start", "next")
    assert places(other) == [1, 2, 3]
    labelled.run("labels", "print", target, "--stock", "roll-50x30")
    roll = labelled.run("labels", "print", target, "--stock", "roll-50x30")
    assert "--start next" not in roll.stdout


def test_a_full_sheet_is_followed_by_a_new_one(labelled: Keeper, target: str) -> None:
    labelled.run("labels", "print", target, "--start", "22")
    assert places(labelled.json("labels", "print", target, "--start", "next")) == [1, 2, 3]


def test_undo_takes_back_what_a_print_noted(labelled: Keeper, target: str) -> None:
    labelled.run("labels", "print", target)
    assert labelled.json("labels", "print", target, "--changed")["labels_printed"] == 0
    assert "printed 3 labels on a4-3x8" in labelled.run("undo").stdout
    assert labelled.json("labels", "print", target, "--changed")["labels_printed"] == 3
    assert places(labelled.json("labels", "print", target, "--start", "next")) == [4, 5, 6]


def test_only_what_says_something_new_is_printed_again(labelled: Keeper, target: str) -> None:
    labelled.run("labels", "print", target)
    labelled.run("animal", "change", "Ember", "--name", "Embers")
    labelled.run("move", "Moss", "--to", "V-03")
    changed = labelled.json("labels", "print", target, "--changed")
    assert [row["code"] for row in changed["labels"]] == ["V-01", "V-02", "V-03"]
    labelled.run("move", "Moss", "--to", "V-02")
    labelled.run("labels", "print", target, "--changed", "--enclosure", "V-02")
    rest = labelled.json("labels", "print", target, "--changed")
    assert [row["code"] for row in rest["labels"]] == ["V-03"]
    cards = labelled.json("labels", "print", target, "--changed", "--kind", "animal")
    assert len(cards["labels"]) == 3  # cards were never printed


def test_a_preview_marks_used_places_and_notes_nothing(labelled: Keeper, target: str) -> None:
    before = labelled.json("undo", "--list")
    answer = labelled.json("labels", "print", target, "--preview", "--used", "1-4,6")
    assert places(answer) == [5, 7, 8]
    assert labelled.json("undo", "--list") == before
    assert labelled.json("labels", "print", target, "--changed")["labels_printed"] == 3


def test_printing_does_not_stand_in_the_way_of_undoing_an_entry(
    labelled: Keeper, target: str
) -> None:
    labelled.run("animal", "add", "Late", "--species", "rainbow boa")
    entry = labelled.json("undo", "--list")["steps"][0]["step"]
    labelled.run("labels", "print", target, "--kind", "animal")
    labelled.run("undo", entry)
    assert all(a["name"] != "Late" for a in labelled.json("animal", "list")["animals"])


@pytest.mark.parametrize(("yes", "wanted"), [(True, [4, 5, 6]), (False, [1, 2, 3])])
def test_on_a_terminal_the_begun_sheet_is_offered(
    labelled: Keeper, target: str, monkeypatch: pytest.MonkeyPatch, yes: bool, wanted: list[int]
) -> None:
    labelled.run("labels", "print", target)
    asked: list[str] = []
    real = Session.__init__

    def asking(self, path, now, open_file, _, *rest):
        real(self, path, now, open_file, True, *rest)

    def answered(question: str, **_: object) -> bool:
        asked.append(question)
        return yes

    monkeypatch.setattr(Session, "__init__", asking)
    monkeypatch.setattr(typer, "confirm", answered)
    assert places(labelled.json("labels", "print", target)) == wanted
    assert asked == ["used on the last sheet of a4-3x8: 1-3; go on there?"]
