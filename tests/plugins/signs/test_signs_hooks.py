"""Signs, notes and readings in the round: they stay until answered, and all of it is undone."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, check_plugin, new_keeper


@pytest.fixture
def house(tmp_path: Path) -> Keeper:
    """A corn snake and a crested gecko, each in a home of its own."""
    keeper = new_keeper(tmp_path, plugins=["signs"])
    for name, species in (("Ember", "corn snake"), ("Nim", "crested gecko")):
        keeper.run("enclosure", "add", f"Home of {name}", "--code", f"H{name[0]}")
        about = ("--species", species, "--enclosure", f"H{name[0]}", "--since", "2025-01-01")
        keeper.run("animal", "add", name, *about)
    return keeper


def found(house: Keeper) -> list[tuple[str, str]]:
    return [(f["code"], f["level"]) for f in house.json("today")["findings"]]


def test_the_plugin_as_a_whole(tmp_path: Path) -> None:
    check_plugin("signs", tmp_path, typed=[])


@pytest.mark.parametrize(
    "ends",
    [
        ("record", "sign", "EMB=noisy breathing", "--state", "gone"),
        ("record", "examined", "EMB", "--told", "an infection, treated"),
    ],
)
def test_a_sign_stays_until_gone_or_seen_by_a_vet(house: Keeper, ends: tuple[str, ...]) -> None:
    house.run("record", "sign", "EMB=wheezing")
    house.pass_days(40)
    assert found(house) == [("signs.seen", "look soon")]
    house.run(*ends)
    assert found(house) == []
    house.run("undo")
    assert found(house) == [("signs.seen", "look soon")]


def test_seen_again_after_the_vet_it_stands_again_and_is_on_the_report(house: Keeper) -> None:
    house.run("record", "examined", "EMB", "--told", "rest", "--at", "2026-03-01")
    house.run("record", "sign", "EMB=gasping", "--where", "at the hot spot")
    assert found(house) == [("signs.seen", "act now")]
    told = " ".join(house.run("report", "EMB").stdout.split())
    assert "breathing with open mouth" in told and "see a vet today" in told


def test_words_of_a_sign_in_a_note_are_asked_about(house: Keeper) -> None:
    house.run("record", "observed", "EMB=wheezing, bubbles at mouth")
    house.run("record", "weighed", "NIM=40g", "--note", "black dots at the vent")
    assert found(house) == [("signs.written", "look soon")] * 2
    house.run("record", "sign", "EMB=noisy breathing", "--state", "not so")
    house.run("record", "sign", "NIM=mites")
    assert found(house) == [("signs.seen", "look soon")]


def test_an_unknown_sign_gets_a_suggestion(house: Keeper) -> None:
    told = house.run("record", "sign", "EMB=bleding", ok=False)
    assert told.code == 2 and "did you mean 'bleeding'?" in told.stderr
    words = house.run("record", "sign", "EMB=wheez", ok=False).complaint(2)
    assert "did you mean 'wheeze'?" in words and len(words) < 80, "and no list of all"
    assert "seizure, " in house.run("record", "sign", "EMB=xyzzy", ok=False).complaint(2)


def test_a_reading_beyond_limits_stands_until_a_better_one(house: Keeper) -> None:
    house.run("record", "climate", "HN", "--warm", "33C")
    assert found(house) == [("signs.unsafe", "act now")]
    house.run("record", "climate", "HN", "--warm", "25C", "--cool", "21C")
    assert found(house) == []


def test_a_reading_a_little_out_of_the_usual_is_a_note_until_the_next_says_so_too(
    house: Keeper,
) -> None:
    """The usual cool side of a corn snake ends at 24 °C; far beyond it one reading is enough."""
    for cool, level in (
        (28, "note"),
        (28, "look soon"),
        (24, None),
        (29, "note"),
        (31, "look soon"),
    ):
        house.run("record", "climate", "HE", "--warm", "30C", "--cool", f"{cool}C")
        assert found(house) == ([("signs.unusual", level)] if level else [])
        house.pass_days(2)


def test_a_reading_of_a_winter_rest_is_not_held_against_the_one_that_woke(house: Keeper) -> None:
    house.run("record", "cooling", "EMB", "--state", "begun", "--at", "2026-01-01")
    house.run("record", "climate", "HE", "--warm", "13C", "--cool", "12C", "--at", "2026-03-01")
    assert found(house) == []
    house.run("record", "cooling", "EMB", "--state", "ended", "--at", "2026-03-04")
    assert found(house) == []
    house.run("record", "climate", "HE", "--warm", "13C", "--cool", "12C")
    assert ("signs.unsafe", "act now") in found(house)


def test_the_keepers_own_limit_of_an_animal_wins(house: Keeper) -> None:
    house.run("record", "climate", "HN", "--warm", "26C", "--cool", "25C")
    assert found(house) == []
    house.run("plugin", "set", "signs", "too_hot", "24C", "--animal", "NIM", "--note", "its vet")
    assert found(house) == [("signs.unsafe", "act now")]


@pytest.mark.parametrize("typed", [("--warm", "160F"), ("--warm", "86C"), ("--cool", "50C")])
def test_an_implausible_reading_is_asked_about(house: Keeper, typed: tuple[str, ...]) -> None:
    told = house.run("record", "climate", "HE", *typed, ok=False)
    assert told.code == 4 and "--confirm" in told.stderr
    assert found(house) == []
    house.run("record", "climate", "HE", *typed, "--confirm")
    assert ("signs.unsafe", "act now") in found(house)


def test_a_wasted_body_is_found_and_a_target_mass_is_told(house: Keeper) -> None:
    house.run("record", "condition", "EMB=1")
    house.run("animal", "set", "EMB", "target_mass", "450g", "--note", "by its vet")
    assert found(house) == [("signs.condition", "look soon")]
    card = house.json("animal", "show", "EMB")
    assert (card["body_condition"], card["target_mass_g"]) == ("1 of 5, wasted", 450)
    house.run("record", "condition", "EMB=3")
    assert found(house) == []
    assert house.run("record", "condition", "EMB=6", ok=False).code == 2


def test_a_spreadsheet_may_name_a_sign_by_another_word(house: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "signs.csv"
    file.write_text("date,kind,animal,sign\n2026-03-01,sign,EMB,wheezing\n", encoding="utf-8")
    house.run("import", file)
    assert found(house) == [("signs.seen", "look soon")]


def test_what_a_record_shows_is_told_at_once(house: Keeper) -> None:
    """A question about a note, with what to type; nothing of a note that names no sign."""
    told = " ".join(
        house.run("record", "observed", "EMB=wheezing, bubbles at mouth").stdout.split()
    )
    assert "What they show" in told and "see a vet within days" in told
    assert "What they show" not in house.run("record", "observed", "EMB=climbed all day").stdout
    quiet = house.run("record", "observed", "NIM=put black dots of paint on the wall of the tub")
    assert "What they show" not in quiet.stdout
    assert ("signs.written", "note") in found(house)
