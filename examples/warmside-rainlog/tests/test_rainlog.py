"""The plugin in a collection, through the commands that a keeper types."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, new_keeper


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper with the plugin enabled, a chamber and the gecko that lives in it."""
    keeper = new_keeper(tmp_path, plugins=["rainlog"])
    keeper.run("enclosure", "add", "Rain box", "--code", "RB")
    keeper.run("animal", "add", "Drip", "--species", "crested gecko", "--enclosure", "RB")
    keeper.run("rainlog", "set", "RB", "--every", "2", "--minutes", "20")
    return keeper


def test_rain_is_due_until_it_has_rained(keeper: Keeper) -> None:
    (task,) = keeper.json("today")["tasks"]
    assert (task["what"], task["why"]) == ("let it rain 20 min", "every 2 days, never yet")
    keeper.run("done", "1")
    assert keeper.json("today")["tasks"] == []
    keeper.pass_days(2)
    (task,) = keeper.json("today")["tasks"]
    assert task["why"] == "every 2 days, last 2 days ago"
    assert keeper.json("history", "RB", "--last", "1")["events"][0]["what"] == "rained: minutes 20"


def test_too_much_rain_is_found_and_the_limit_is_the_keepers(keeper: Keeper) -> None:
    keeper.run("record", "rainlog.rained", "RB=90")
    assert keeper.json("today")["findings"] == []
    keeper.run("record", "rainlog.rained", "RB=31", "--amount", "2 l")
    (finding,) = keeper.json("today")["findings"]
    assert (finding["code"], finding["level"]) == ("rainlog.soaked", "look soon")
    assert "121 min" in finding["words"]
    assert len(finding["events"]) == 2
    keeper.run("plugin", "set", "rainlog", "most_minutes", "240")
    assert keeper.json("today")["findings"] == []


def test_the_log_is_listed_and_shown(keeper: Keeper) -> None:
    keeper.run("record", "rainlog.rained", "RB=15", "--at", "yesterday")
    keeper.run("record", "rainlog.rained", "RB=20")
    assert keeper.json("rainlog", "list")["chambers"] == [
        {"enclosure": "RB", "every_days": 2, "minutes": 20, "next": "2026-03-07"}
    ]
    shown = keeper.json("rainlog", "show", "RB")
    assert shown["minutes"] == 35
    assert [d["minutes"] for d in shown["rain"]] == [15, 20]
    assert "Rain" in keeper.run("report", "DRI").stdout


def test_a_label_says_how_often_it_rains(keeper: Keeper) -> None:
    from warmside_rainlog.hooks import warmside_label_lines

    with keeper.book() as book:
        (line,) = warmside_label_lines(book, book.animal("DRI").id, book.today)
    assert (line.key, line.text) == ("rainlog.rain", "rain 20 min every 2 days")


def test_changes_are_undone_like_anything_else(keeper: Keeper) -> None:
    keeper.run("rainlog", "set", "RB", "--every", "1w")
    assert keeper.run("undo").stdout.startswith("took back step 5: rain in RB: 20 min every 7 days")
    assert keeper.json("rainlog", "list")["chambers"][0]["every_days"] == 2
    keeper.run("rainlog", "drop", "RB")
    assert keeper.json("rainlog", "list")["chambers"] == []
    keeper.run("undo")
    assert len(keeper.json("rainlog", "list")["chambers"]) == 1


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("set", "NOWHERE", "--every", "2"), 3),
        (("set", "RB", "--every", "0"), 2),
        (("set", "RB", "--every", "soon"), 2),
        (("set", "RB", "--every", "2", "--minutes", "0"), 2),
        (("show", "RB", "--days", "0"), 2),
        (("drop", "NOWHERE"), 3),
    ],
)
def test_bad_input_is_one_line_and_changes_nothing(
    keeper: Keeper, words: tuple[str, ...], code: int
) -> None:
    before = keeper.path.read_bytes()
    result = keeper.run("rainlog", *words, ok=False)
    assert (result.code, result.stderr.count("\n")) == (code, 1)
    assert keeper.path.read_bytes() == before


def test_what_is_no_chamber_cannot_be_dropped(keeper: Keeper) -> None:
    keeper.run("rainlog", "drop", "RB")
    assert keeper.run("rainlog", "drop", "RB", ok=False).code == 3


def test_a_file_keeps_the_log_without_the_plugin(keeper: Keeper) -> None:
    keeper.run("record", "rainlog.rained", "RB=20")
    keeper.run("plugin", "disable", "rainlog")
    assert "rainlog.rained: minutes 20" in keeper.run("history", "RB").stdout
    keeper.run("plugin", "enable", "rainlog")
    assert len(keeper.json("rainlog", "list")["chambers"]) == 1
    assert keeper.run("file", "check").code == 0
