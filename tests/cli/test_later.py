"""`warmside later` puts a finding off: hidden from the round, told in the report, undone."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from warmside.api import About, Basis, Finding, Level
from warmside.testing import Keeper, throw_away_plugin

CODES = (("watch.thin", "thin"), ("watch.lump", "lump"))


@pytest.fixture
def watched(keeper: Keeper) -> Iterator[Keeper]:
    """A plugin that finds Ember thin, worse from April on, and a lump that cannot wait."""
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--since", "2025-01-01")

    def found(book: Any, on: date) -> Iterator[Finding]:
        ember = About(book.animal("EMB").id)
        level = Level.ACT_NOW if on >= date(2026, 4, 1) else Level.LOOK_SOON
        yield Finding("watch.thin", level, "thin: weigh it", Basis("by eye"), ember)
        yield Finding("watch.lump", Level.ACT_NOW, "a lump", Basis("by eye"), ember)

    with throw_away_plugin("watch", manifest={"findings": CODES}, warmside_findings=found):
        keeper.run("plugin", "enable", "watch")
        yield keeper


def codes(keeper: Keeper, *on: str) -> list[str]:
    return [f["code"] for f in keeper.json("today", *on)["findings"]]


def test_a_finding_is_hidden_until_its_day_told_in_the_report_and_undone(watched: Keeper) -> None:
    assert codes(watched) == ["watch.lump", "watch.thin"]
    watched.run("later", "b", "--until", "2026-03-20", "--reason", "vet on the 19th")
    assert codes(watched) == ["watch.lump"]
    assert "put off until 2026-03-20: Ember (EMB), thin" in watched.run("today").stdout
    assert "vet on the 19th" in watched.run("report", "EMB").stdout
    assert codes(watched, "--on", "2026-03-20") == ["watch.lump", "watch.thin"]
    watched.run("undo")
    assert codes(watched) == ["watch.lump", "watch.thin"]
    assert watched.json("file", "check")["ok"]


def test_what_has_become_worse_is_shown_all_the_same(watched: Keeper) -> None:
    watched.run("today")
    watched.run("later", "b", "--until", "2026-04-20", "--reason", "eats well")
    assert codes(watched, "--on", "2026-03-31") == ["watch.lump"]
    assert codes(watched, "--on", "2026-04-01") == ["watch.lump", "watch.thin"]


@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        (("a", "--until", "2026-03-20", "--reason", "x"), 4, "for 3 days at most"),
        (("b", "--until", "2026-03-05", "--reason", "x"), 2, "not after today"),
        (("b", "--until", "2026-03-20"), 2, "--reason TEXT"),
        (("b", "--reason", "x"), 2, "--until DAY"),
        (("z", "--until", "2026-03-20", "--reason", "x"), 3, "no finding"),
        (("1", "--until", "2026-03-20", "--reason", "x"), 2, "findings have letters"),
    ],
)
def test_what_cannot_be_put_off_says_why(
    watched: Keeper, typed: tuple[str, ...], code: int, said: str
) -> None:
    watched.run("today")
    result = watched.run("later", *typed, ok=False)
    assert result.code == code and said in result.stderr
    assert codes(watched) == ["watch.lump", "watch.thin"]
