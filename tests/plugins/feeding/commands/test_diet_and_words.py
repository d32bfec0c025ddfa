"""Diets that the keeper sets once, words that are mapped once, and meals that are asked about."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.typed_on_terminal import type_on_terminal

from warmside.testing import Keeper


@pytest.fixture
def cory(room: Keeper) -> Keeper:
    """A skink of a species without a row; 600 g."""
    room.run("species", "add", "Corucia zebrata", "--common", "invented skink", "--group", "skink")
    room.run("animal", "add", "Cory", "--species", "Corucia zebrata", "--since", "2025-01-01")
    room.run("record", "weighed", "COR=600g")
    return room


def asked(keeper: Keeper, code: str) -> list[str]:
    """The codes of the findings about an animal (or about the collection)."""
    found = keeper.json("today")["findings"]
    return [
        f["code"] for f in found if f"({code})" in f["subject"] or (not code and not f["subject"])
    ]


def diet(keeper: Keeper, code: str) -> dict[str, Any]:
    return {p["part"]: p["often"] for p in keeper.json("feeding", "plan", code)["diet"]}


def test_a_diet_is_asked_for_once_and_nothing_is_offered_before(cory: Keeper) -> None:
    assert "feeding.no-diet" in asked(cory, "COR")
    task = next(t for t in cory.json("today")["tasks"] if t["animal"] == "COR")
    assert task["what"] == "feed (when last?)" and "cricket" not in task["why"]
    cory.run("feeding", "diet", "set", "COR", "plants")
    assert "feeding.no-diet" not in asked(cory, "COR")
    found = cory.json("feeding", "plan", "COR")
    assert found["interval_basis"]["rule"] == "daily at any stage" and "fits" not in found
    cory.run("undo")
    assert "feeding.no-diet" in asked(cory, "COR")


def test_a_diet_holds_for_the_species_and_a_part_for_one_animal_alone(cory: Keeper) -> None:
    cory.run("animal", "add", "Dora", "--species", "Corucia zebrata", "--since", "2025-01-01")
    cory.run("feeding", "diet", "set", "COR", "omnivore")
    cory.run(
        "feeding", "diet", "part", "DOR", "insects", "--every", "7", "--meal", "1-2", "--alone"
    )
    assert "feeding.no-diet" not in asked(cory, "DOR")
    assert diet(cory, "COR") == {"greens": "daily", "insects": "every 1 to 4 days"}
    unsettled = cory.json("feeding", "plan", "COR")
    assert unsettled["stage"] == "hatchling, juvenile, subadult or adult"
    assert "no masses and ages of life stages are known" in unsettled["stage_basis"]["rule"]
    cory.run("species", "set", "Corucia zebrata", "adult_mass", "500g")
    assert diet(cory, "COR") == {"greens": "daily", "insects": "twice a week"}
    with cory.ask() as ask:
        from warmside.plugins.feeding.reading import Reading

        reading = Reading(ask, ask.book.today)
        dora = reading.species(ask.book.animal("DOR").id)
    assert dora is not None and dora.diet.said(None) == "greens daily, insects once a week"


def test_one_part_of_a_shipped_diet_can_be_changed_added_and_dropped(room: Keeper) -> None:
    room.run("record", "weighed", "MOS=42g")
    room.run("feeding", "diet", "part", "MOS", "insects", "--every", "4")
    room.run("feeding", "diet", "part", "MOS", "fruit", "--food", "fruit", "--every", "10")
    assert diet(room, "MOS") == {
        "complete powder diet": "every 2 to 3 days",
        "insects": "every 4 days",
        "fruit": "every 10 days",
    }
    room.run("feeding", "diet", "part", "MOS", "insects", "--drop")
    assert set(diet(room, "MOS")) == {"complete powder diet", "fruit"}
    room.run("feeding", "diet", "drop", "MOS")
    assert diet(room, "MOS")["insects"] == "every 7 to 14 days"


@pytest.mark.parametrize(
    ("says", "words"),
    [
        ("there is no diet 'cake'", "diet set EMB cake"),
        ("nothing to set", "diet part EMB prey"),
        ("there is no part greens", "diet part EMB greens --every 1"),
        ("cannot be dropped", "diet part EMB prey --drop"),
        ("no prey class 'hamster'", "word set vermin hamster"),
    ],
)
def test_what_cannot_be_set_is_refused(room: Keeper, says: str, words: str) -> None:
    assert says in room.run("feeding", *words.split(), ok=False).complaint(2)


def test_a_word_is_mapped_once_for_old_meals_and_new(room: Keeper) -> None:
    refused = room.run("record", "fed", "EMB", "--item", "ratto", ok=False)
    assert "'ratto' is no food that is known here" in refused.complaint(4)
    room.run("record", "fed", "EMB", "--item", "ratto", "--at", "2026-03-01", "--confirm")
    assert "feeding.unknown-food" in asked(room, "")
    listed = room.json("feeding", "word", "list")
    assert listed["unknown"] == [{"word": "ratto", "meals": 1}]
    room.run("feeding", "word", "set", "Ratto", "small rat")
    assert room.json("feeding", "word", "list")["unknown"] == []
    assert "feeding.unknown-food" not in asked(room, "")
    assert room.json("feeding", "balance", "EMB")["meals"][0]["prey"] == "small rat"
    room.run("record", "fed", "KES", "--item", "ratto")


def test_an_import_lists_its_unknown_words_once_each(room: Keeper, tmp_path: Path) -> None:
    rows = [f"2025-{m:02}-{d:02},fed,EMB,ratto" for m in (8, 9, 10) for d in range(1, 26)]
    table = tmp_path / "old.csv"
    table.write_text("\n".join(["date,kind,animal,item", *rows]), "utf-8")
    refused = room.run("import", str(table), ok=False)
    assert "'ratto' (75 meals) is no food that is known here" in refused.stderr
    room.run("feeding", "word", "set", "ratto", "small rat")
    room.run("import", str(table))


def test_an_outcome_alone_is_no_food(room: Keeper) -> None:
    refused = room.run("record", "fed", "EMB=taken", ok=False)
    assert "says what came of the meal and not what it was" in refused.complaint(2)
    asked = room.run("feeding", "fed", "EMB=refused", ok=False).complaint(4)
    assert "planned is 1 × small rat; name it: EMB='1 × small rat'" in asked
    assert "fed" not in str(room.json("history", "EMB")["events"])
    room.run("feeding", "fed", "EMB=refused", "--confirm")
    (event,) = (e for e in room.json("history", "EMB")["events"] if "fed" in e["what"])
    assert "small rat" in event["what"] and "refused" in event["what"]


def test_an_outcome_with_the_food_of_all_is_of_that_food(room: Keeper) -> None:
    room.run("feeding", "fed", "EMB=refused", "--item", "adult mouse")
    (event,) = (e for e in room.json("history", "EMB")["events"] if "fed" in e["what"])
    assert "adult mouse" in event["what"] and "refused" in event["what"]


def test_on_a_terminal_the_planned_food_is_offered_and_another_can_be_named(
    room: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in room.environment.items():
        monkeypatch.setenv(name, value)
    words = ["feeding", "fed", "EMB=taken", "KES=refused"]
    code, screen = type_on_terminal(words, "\n2 weaned rats\n", room.path)
    assert code == 0, screen
    assert "What food was it for Ember (EMB)? [1 × small rat]" in screen
    with room.book() as book:
        found = {e.animal_id: (e.data["count"], e.data["item"]) for e in book.events("fed")}
        assert found == {1: (1, "small rat"), 2: (2, "weaned rat")}


def test_a_refusal_alone_is_asked_about_unless_the_round_is_as_planned(room: Keeper) -> None:
    asked = room.run("feeding", "fed", "--refused", "EMB", ok=False).complaint(4)
    assert "Ember (EMB): what food it was is not said" in asked
    room.run("feeding", "fed", "EMB", "--refused", "EMB")


def test_twenty_mice_are_asked_about_however_they_are_recorded(room: Keeper) -> None:
    for words in (
        ("feeding", "fed", "EMB=20 adult mice"),
        ("record", "fed", "EMB", "--item", "adult mouse", "--count", "20"),
    ):
        assert "20 × adult mouse in one meal" in room.run(*words, ok=False).complaint(4)


def test_a_meal_that_came_back_is_not_shown_as_eaten(room: Keeper) -> None:
    for outcome, day in (("taken", "2026-02-25"), ("regurgitated", "2026-02-27")):
        words = ("--item", "small rat", "--outcome", outcome, "--at", day)
        room.run("record", "fed", "EMB", *words)
    (meal,) = room.json("feeding", "balance", "EMB")["meals"]
    assert meal["eaten"] == 0 and meal["energy_kj"] is None
    assert room.json("feeding", "plan", "EMB")["last_meal"] is None
