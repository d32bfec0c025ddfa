"""A whole round of meals recorded at once."""

from __future__ import annotations

from typing import Any

from warmside.testing import Keeper


def events(keeper: Keeper, kind: str = "fed") -> dict[str, dict[str, Any]]:
    with keeper.book() as book:
        return {book.animals[e.animal_id or 0].code: dict(e.data) for e in book.events(kind)}


def test_each_gets_what_is_planned_for_it_and_refusals_are_named(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB", "KES", "BAS", "--refused", "KES", "--part", "BAS")
    found = events(room)
    assert found["EMB"]["item"] == "small rat" and found["EMB"]["outcome"] == "taken"
    assert found["KES"]["outcome"] == "refused" and found["BAS"]["outcome"] == "part taken"
    assert found["BAS"]["form"] == "insect" and found["EMB"]["form"] == "thawed"
    assert found["EMB"]["mass_g"] is None


def test_it_is_one_step(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB", "KES")
    room.run("undo")
    assert events(room) == {}


def test_prey_can_be_named_for_all_or_for_one(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB", "KES=2xweaned rat", "--item", "adult mouse", "--each", "25g")
    found = events(room)
    assert (found["EMB"]["item"], found["EMB"]["mass_g"]) == ("adult mouse", 25)
    assert (found["KES"]["item"], found["KES"]["count"]) == ("weaned rat", 2)
    assert found["KES"]["mass_g"] == 50


def test_one_that_refused_need_not_be_named_twice(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB", "--refused", "KES", "--item", "adult mouse")
    assert events(room)["KES"]["outcome"] == "refused"


def test_all_that_are_due_are_fed_and_those_without_a_plan_are_named(room: Keeper) -> None:
    result = room.run("feeding", "fed", "--due", "--refused", "EMB")
    assert set(events(room)) == {"EMB", "KES", "BAS", "MOS"}
    assert "Moss (MOS) is due too (insects)" in result.stderr
    assert [t["animal"] for t in room.json("today")["tasks"] if t["animal"]] == ["MOS"]


def test_the_powder_is_recorded_for_insects_that_were_eaten(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB", "BAS", "--dust", "calcium-d3")
    assert events(room, "feeding.dusted") == {"BAS": {"powder": "calcium-d3"}}


def test_the_planned_powder_follows_the_rota(room: Keeper) -> None:
    powders = []
    for _ in range(7):
        room.run("feeding", "fed", "BAS", "--dust", "planned")
        powders.append(events(room, "feeding.dusted")["BAS"]["powder"])
        room.pass_days(3)
    assert powders[0] == "calcium" and {"calcium-d3", "multivitamin"} <= set(powders)


def test_what_is_left_in_stock_is_told(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "small rat", "3")
    found = room.json("feeding", "fed", "EMB")
    assert found["totals"] == [{"prey": "rat-small", "name": "small rat", "left": 2}]
    assert "small rat" in found["recorded"][0]["what"]


def test_a_meal_heavier_than_the_animal_needs_a_word(room: Keeper) -> None:
    words = ("feeding", "fed", "BAS=adult mouse", "--each", "70g")
    refused = room.run(*words, ok=False)
    assert refused.code == 4 and "the meal is heavier than Basil" in refused.stderr
    assert "--confirm" in refused.stderr and events(room) == {}
    room.run(*words, "--confirm")
    assert events(room)["BAS"]["mass_g"] == 70


def test_prey_wider_than_the_animal_needs_a_word(room: Keeper) -> None:
    room.run("record", "measured", "EMB", "--girth", "8cm")
    refused = room.run("feeding", "fed", "EMB=large rat", ok=False)
    assert refused.code == 4 and "mm wide" in refused.stderr and events(room) == {}


def test_the_answer_has_the_keys_of_any_recording_command(room: Keeper) -> None:
    (mine,) = room.json("feeding", "fed", "EMB=small rat")["recorded"]
    (other,) = room.json("record", "fed", "KES", "--item", "small rat")["recorded"]
    assert mine.keys() == other.keys() and mine["data"].keys() == other["data"].keys()
    assert mine["animal"] == "EMB" and mine["data"]["item"] == "small rat"
