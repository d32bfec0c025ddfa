"""The days of a retry, which may be set for a species or an animal: rows shipped, the keeper's."""

from __future__ import annotations

from warmside.core.values.about import About
from warmside.core.values.basis import Mark
from warmside.plugins.feeding.care.rules import rule_rows
from warmside.plugins.feeding.care.shipped import values
from warmside.plugins.feeding.care.species import Stage, species_rows
from warmside.testing import Keeper

REFUSED = ("record", "fed", "--item", "small rat", "--outcome", "refused", "--at", "2026-03-03")


def retry(keeper: Keeper, animal_id: int) -> tuple[float, str, Mark]:
    with keeper.ask() as ask:
        found = ask.value("feeding", "retry_days", About(animal_id))
    return found.value, found.scope, found.basis.source.mark


def test_shipped_values_are_of_known_species_within_the_limits_and_sourced() -> None:
    shipped = list(values())
    assert shipped and len({s.species for s in shipped}) == len(shipped)
    for one in shipped:
        rule, species = rule_rows()[one.name], species_rows()[one.species]
        assert rule.least is not None and rule.most is not None
        assert rule.least <= float(one.value) <= rule.most and one.source.text
        assert float(one.value) < species.interval(Stage.ADULT)[0], "else it would never count"


def test_a_species_with_a_row_has_its_own_days_and_others_the_general_rule(room: Keeper) -> None:
    assert retry(room, 1) == (7, "species", Mark.COMMON_PRACTICE)
    assert retry(room, 3) == (5, "default", Mark.COMMON_PRACTICE)


def test_the_narrowest_value_moves_the_next_offer_and_the_plan_says_whose_it_is(
    room: Keeper,
) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-01-20")
    room.run("record", "fed", "EMB", *REFUSED[2:])
    plan = room.json("feeding", "plan", "EMB")
    assert (plan["due_from"], plan["retry_days"]) == ("2026-03-10", 7)
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
