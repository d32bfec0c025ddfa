"""Animals that are lent out stand in the round, and speak up when they are late."""

from __future__ import annotations

import pytest

from warmside.testing import Keeper


@pytest.mark.parametrize(
    ("until", "said"),
    [
        ("2026-03-20", "Ember (EMB) is with Ann until 2026-03-20"),
        ("2026-03-01", "! Ember (EMB) is with Ann, 4 days late: back was due on 2026-03-01"),
    ],
)
def test_a_loan_is_listed_with_its_day_of_return(keeper: Keeper, until: str, said: str) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--since", "2025-01-01")
    keeper.run("lend", "Ember", "--to", "Ann", "--until", until, "--at", "2026-02-01")
    assert said in keeper.run("today").stdout
    (away,) = keeper.json("today")["away"]
    assert (away["until"], away["late_days"]) == (until, 4 if said.startswith("!") else None)
    keeper.run("return", "Ember")
    assert keeper.json("today")["away"] == []


def test_an_empty_round_says_what_comes_next(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "LOW")
    keeper.run("plugin", "enable", "rhythm")
    keeper.run("rhythm", "set", "watered", "--every", "3")
    keeper.run("record", "watered", "LOW")
    shown = keeper.run("today").stdout
    assert "nothing is due; next: fresh water (Low shelf) on 2026-03-08" in shown
    assert "nothing due, have a look: Ember (EMB) in LOW" in shown
