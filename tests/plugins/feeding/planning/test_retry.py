"""The days of a retry, which may be set for a species or an animal."""

from __future__ import annotations

from warmside.testing import Keeper

REFUSED = ("--item", "small rat", "--outcome", "refused", "--at", "2026-03-03")


def test_the_narrowest_value_moves_the_next_offer_and_the_plan_says_whose_it_is(
    room: Keeper,
) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-01-20")
    room.run("record", "fed", "EMB", *REFUSED)
    plan = room.json("feeding", "plan", "EMB")
    assert (plan["due_from"], plan["due_by"]) == ("2026-03-13", "2026-03-15")
    assert (plan["retry_low_days"], plan["retry_high_days"]) == (10, 12)
    assert plan["retry_basis"]["mark"] == "common practice, no source"
    room.run("plugin", "set", "feeding", "retry_days", "9", "--species", "ball python")
    assert room.json("feeding", "plan", "EMB")["due_from"] == "2026-03-12"
    room.run("plugin", "set", "feeding", "retry_days", "3", "--animal", "EMB")
    plan = room.json("feeding", "plan", "EMB")
    assert plan["due_from"] == "2026-03-06" and plan["retry_basis"]["mark"] == "keeper's own"
    room.run("undo")
    assert room.json("feeding", "plan", "EMB")["due_from"] == "2026-03-12"


def test_a_rule_that_is_for_all_cannot_be_set_for_one(room: Keeper) -> None:
    words = ("plugin", "set", "feeding", "arrival_days", "9", "--animal", "EMB")
    assert "cannot be set for one animal" in room.run(*words, ok=False).complaint(2)
