"""Setting, listing and dropping rhythms."""

from __future__ import annotations

from typing import Any

import pytest

from warmside.testing import Keeper


def listed(keeper: Keeper) -> list[tuple[Any, ...]]:
    rows = keeper.json("rhythm", "list")["rhythms"]
    return [(r["kind"], r["every_days"], r["whom"]) for r in rows]


def test_rhythms_are_set_for_all_and_for_some(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "Moss", "Ember", "--every", "2w")
    mine.run("rhythm", "set", "cleaned", "SHE", "--every", "28")
    mine.run("rhythm", "set", "cleaned", "--every", "40")
    assert listed(mine) == [
        ("cleaned", 28, "SHE"),
        ("cleaned", 40, "all"),
        ("weighed", 14, "MOS"),
        ("weighed", 14, "EMB"),
    ]


def test_setting_again_changes_the_one_that_is_set(mine: Keeper) -> None:
    for days in ("30", "20"):
        mine.run("rhythm", "set", "weighed", "--every", days)
        mine.run("rhythm", "set", "weighed", "Ember", "--every", days)
    assert listed(mine) == [("weighed", 20, "all"), ("weighed", 20, "EMB")]


def test_dropping_leaves_the_others_and_can_be_undone(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "30")
    mine.run("rhythm", "set", "weighed", "Ember", "--every", "7")
    before = listed(mine)
    mine.run("rhythm", "drop", "weighed")
    assert listed(mine) == [("weighed", 7, "EMB")]
    mine.run("undo")
    assert listed(mine) == before


def test_no_rhythm_yet_names_the_next_command(mine: Keeper) -> None:
    assert "warmside rhythm set weighed --every 30" in mine.run("rhythm", "list").stdout


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (["set", "weighed"], 2, "name the interval: --every 30"),
        (["set", "weighed", "--every", "0"], 2, "an interval is 1 to 3650 whole days, not 0"),
        (["set", "weighed", "--every", "3651"], 2, "1 to 3650 whole days, not 3651"),
        (["set", "weighed", "--every", "1.5"], 2, "whole days, not 1.5"),
        (["set", "weather", "--every", "9"], 3, "there is no kind of event 'weather'"),
        (["set", "cleaned", "Ember", "--every", "9"], 3, "there is no enclosure 'Ember'"),
        (["set", "weighed", "SHE", "--every", "9"], 3, "there is no animal 'SHE'"),
        (["set", "weighed", "--every", "9", "--extent", "full"], 2, "only cleaned has an extent"),
        (["set", "cleaned", "--every", "9", "--extent", "half"], 2, "an extent is spot or full"),
        (["drop", "weighed"], 3, "there is no such rhythm of weighed"),
    ],
)
def test_bad_input_is_refused_in_one_line(
    mine: Keeper, arguments: list[str], code: int, says: str
) -> None:
    assert says in mine.run("rhythm", *arguments, ok=False).complaint(code)
    assert listed(mine) == []


def test_one_unknown_subject_of_several_sets_nothing(mine: Keeper) -> None:
    refused = mine.run("rhythm", "set", "weighed", "Ember", "Nobody", "--every", "9", ok=False)
    assert "Nobody" in refused.complaint(3)
    assert listed(mine) == []


def test_one_of_two_cleaning_rhythms_is_dropped_by_its_extent(mine: Keeper) -> None:
    for extent, days in (("spot", "3"), ("full", "28")):
        mine.run("rhythm", "set", "cleaned", "--every", days, "--extent", extent)
    assert listed(mine) == [("cleaned", 3, "all"), ("cleaned", 28, "all")]
    mine.run("rhythm", "drop", "cleaned", "--extent", "spot")
    assert listed(mine) == [("cleaned", 28, "all")]
