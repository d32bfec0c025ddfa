"""Custody and placement on any day."""

from __future__ import annotations

from warmside.testing import Keeper


def test_where_an_animal_was_on_a_day_can_be_asked(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("enclosure", "add", "High shelf")
    keeper.run(
        *("animal", "add", "Ember", "--species", "leopard gecko"),
        *("--enclosure", "LOW", "--since", "2026-01-01"),
    )
    keeper.run("move", "EMB", "--to", "HIG", "--at", "2026-02-01")
    keeper.run("lend", "EMB", "--to", "a friend", "--at", "2026-03-01")
    seen = {}
    for day in ("2025-12-31", "2026-01-15", "2026-02-15", "2026-03-05"):
        animals = keeper.json("animal", "list", "--all", "--on", day)["animals"]
        seen[day] = [(a["custody"], a["enclosure"]) for a in animals]
    assert seen == {
        "2025-12-31": [("never here", None)],
        "2026-01-15": [("here", "LOW")],
        "2026-02-15": [("here", "HIG")],
        "2026-03-05": [("lent out", None)],
    }
    then = keeper.json("enclosure", "list", "--on", "2026-01-15")["enclosures"]
    assert {e["code"]: e["animals"] for e in then} == {"HIG": [], "LOW": ["Ember (EMB)"]}
