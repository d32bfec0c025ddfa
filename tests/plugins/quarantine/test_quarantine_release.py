"""Tests and release: what counts, what is refused, what an override leaves behind."""

from __future__ import annotations

import pytest

from warmside.testing import Keeper

GECKO = ("--species", "leopard gecko")
ALL_CHECKS = ("mites", "breathing", "droppings")


def arrive(keeper: Keeper, name: str = "Pebble", place: str = "TUB") -> None:
    keeper.run("arrive", name, *GECKO, "--enclosure", place)


def shown(keeper: Keeper, animal: str = "PEB") -> dict:
    return keeper.json("quarantine", "show", animal)


def negative(keeper: Keeper, animal: str = "PEB") -> None:
    keeper.run("quarantine", "sample", animal, "faecal", "--method", "flotation")
    keeper.pass_days(2)
    keeper.run("quarantine", "result", animal, "negative")


def checks(keeper: Keeper, animal: str = "PEB") -> None:
    keeper.run("quarantine", "check", animal, *ALL_CHECKS)
    keeper.run("record", "weighed", f"{animal}=40g")


def fulfil(keeper: Keeper, animal: str = "PEB") -> None:
    """Three negatives well apart, and all checks up to day 90."""
    for _ in range(3):
        negative(keeper, animal)
        keeper.pass_days(14)
    keeper.pass_days(90 - 48)
    checks(keeper, animal)


def place_of(keeper: Keeper, animal: str = "PEB") -> str:
    return keeper.json("animal", "show", animal)["enclosure"]


def test_release_is_refused_with_the_list_while_something_is_missing(house: Keeper) -> None:
    arrive(house)
    house.pass_days(30)
    refused = house.run("quarantine", "release", "PEB", "--to", "SHE", ok=False)
    assert refused.code == 4
    assert "60 more days" in refused.stderr
    assert "faecal examination: 0 of 3 negative" in refused.stderr
    assert "mite check: due since 2026-03-05" in refused.stderr
    assert len(refused.stderr.strip().splitlines()) == 1
    assert (place_of(house), shown(house)["day"]) == ("TUB", 30)


def test_release_moves_the_animal_in_the_same_step(house: Keeper) -> None:
    arrive(house)
    fulfil(house)
    assert shown(house)["missing"] == []
    tasks = [t for t in house.json("today")["tasks"] if t["what"] == "release possible"]
    assert tasks[0]["command"] == "warmside quarantine release PEB --to ENCLOSURE"
    house.run("quarantine", "release", "PEB", "--to", "SHE")
    assert place_of(house) == "SHE"
    state = shown(house)
    assert not state["in_quarantine"]
    assert not state["ended"][0]["overridden"]
    house.run("undo")
    assert (place_of(house), shown(house)["day"]) == ("TUB", 90)


def test_the_round_releases_into_the_enclosure_that_is_typed(house: Keeper) -> None:
    arrive(house)
    fulfil(house)
    due = house.json("today")["tasks"]
    task = next(t["number"] for t in due if t["what"] == "release possible")
    bare = house.run("done", task, ok=False).complaint(2)
    assert "needs the enclosure that it goes to" in bare
    assert house.run("done", f"{task}=NOWHERE", ok=False).code == 3
    assert (place_of(house), shown(house)["day"]) == ("TUB", 90)
    said = house.run("done", f"{task}=SHE").stdout
    assert "does not show that an animal is healthy" in " ".join(said.split())
    assert place_of(house) == "SHE" and not shown(house)["in_quarantine"]
    house.run("undo")
    assert (place_of(house), shown(house)["day"]) == ("TUB", 90)


def test_an_override_stays_visible_for_good(house: Keeper) -> None:
    arrive(house)
    house.pass_days(40)
    house.run("quarantine", "release", "PEB", "--to", "SHE", "--override", "room flooded")
    house.pass_days(300)
    ended = shown(house)["ended"][0]
    assert ended["overridden"]
    assert ended["reason"] == "room flooded"
    assert "while missing: 50 more days" in ended["standing"]
    assert "flooded" in house.run("history", "PEB").stdout
    assert "flooded" in house.run("report", "PEB").stdout
    assert "flooded" in house.run("quarantine", "show", "--ended").stdout


def test_the_move_of_a_release_does_not_restart_the_quarantine_it_ends(house: Keeper) -> None:
    arrive(house)
    fulfil(house)
    house.run("quarantine", "release", "PEB", "--to", "SHE")
    ended = shown(house)["ended"][0]
    assert "day 90 of 90" in ended["standing"]


def test_a_released_animal_is_a_newcomer_to_others_in_quarantine(house: Keeper) -> None:
    arrive(house)
    arrive(house, "Fern", "ATT")
    house.pass_days(5)
    told = house.run("quarantine", "release", "PEB", "--to", "ATT", "--override", "only room left")
    assert "meets animals in quarantine: Fern" in told.stderr
    assert [r["cause"] for r in shown(house, "FER")["restarts"]] == ["newcomer_in_room"]


def test_release_into_the_air_of_others_in_quarantine_says_so(house: Keeper) -> None:
    arrive(house)
    arrive(house, "Fern", "BOX")
    house.run("move", "PEB", "--to", "ATT")
    told = house.run("quarantine", "release", "PEB", "--to", "TUB", "--override", "by mistake")
    assert "meets animals in quarantine: Fern" in told.stderr


def test_a_return_while_it_ran_needs_no_further_quarantine_after_release(house: Keeper) -> None:
    arrive(house)
    house.pass_days(20)
    house.run("lend", "PEB", "--to", "a show")
    house.pass_days(1)
    house.run("return", "PEB", "--after", "show", "--enclosure", "TUB")
    house.run("quarantine", "release", "PEB", "--to", "SHE", "--override", "the vet says so")
    codes = [f["code"] for f in house.json("today")["findings"]]
    assert "quarantine.newcomer" not in codes


def test_a_later_change_of_the_protocol_does_not_judge_a_release_anew(house: Keeper) -> None:
    house.run("quarantine", "protocol", "edit", "general", "days=95")
    arrive(house)
    fulfil(house)
    house.pass_days(5)
    house.run("quarantine", "release", "PEB", "--to", "SHE")
    house.run("quarantine", "protocol", "edit", "general", "days=150")
    house.run("plugin", "set", "quarantine", "days", "200")
    ended = shown(house)["ended"][0]
    assert "day 95 of 95" in ended["standing"]
    assert not ended["overridden"]


def test_a_running_quarantine_follows_a_change_of_the_protocol(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "protocol", "edit", "general", "days=120")
    assert shown(house)["days"] == 120
    house.run("quarantine", "protocol", "edit", "general", "days=default")
    assert shown(house)["days"] == 90


@pytest.mark.parametrize(
    ("typed", "code", "words"),
    [
        (("EMB", "--to", "SHE"), 4, "not in quarantine"),
        (("PEB",), 2, "--to ENCLOSURE"),
        (("PEB", "--to", "SHE", "--override", " "), 2, "needs its reason"),
        (("PEB", "--to", "NOWHERE", "--override", "x"), 3, "there is no enclosure"),
        (("PEB", "--to", "SHE", "--override", "x", "--at", "2026-03-01"), 4, "not in quarantine"),
        (("PEB", "--to", "SHE", "--override", "x", "--at", "2026-03-05"), 4, "--at"),
        (("PEB", "--to", "SHE", "--override", "x", "--at", "in 3 days"), 4, "future"),
    ],
)
def test_impossible_releases_are_one_line(
    house: Keeper, typed: tuple[str, ...], code: int, words: str
) -> None:
    arrive(house)
    refused = house.run("quarantine", "release", *typed, ok=False)
    assert refused.code == code
    assert words in refused.stderr
    assert len(refused.stderr.strip().splitlines()) == 1
    assert place_of(house) == "TUB"


def test_a_retired_enclosure_takes_none(house: Keeper) -> None:
    arrive(house)
    house.run("enclosure", "change", "BOX", "--retired")
    refused = house.run("quarantine", "release", "PEB", "--to", "BOX", "--override", "x", ok=False)
    assert refused.code == 4
    assert shown(house)["in_quarantine"]


def test_a_release_into_its_own_enclosure_moves_nothing(house: Keeper) -> None:
    arrive(house)
    told = house.json("quarantine", "release", "PEB", "--to", "TUB", "--override", "stays")
    assert len(told["recorded"]) == 1


def test_a_sample_too_early_is_kept_and_said_not_to_count(house: Keeper) -> None:
    arrive(house)
    negative(house)
    house.pass_days(3)
    told = house.run("quarantine", "sample", "PEB", "faecal", "--method", "smear")
    assert "counts from 2026-03-19 on" in told.stderr
    house.run("quarantine", "result", "PEB", "negative")
    assert shown(house)["tests"][0]["negative"] == 1


@pytest.mark.parametrize(
    "typed",
    [
        ("sample", "PEB", "faecal"),
        ("result", "PEB", "negative"),
        ("check", "PEB", "mites"),
        ("restart", "PEB", "--because", "x"),
        ("release", "PEB", "--to", "SHE", "--override", "x"),
    ],
    ids=lambda typed: typed[0],
)
def test_recording_answers_a_script_as_record_does(house: Keeper, typed: tuple[str, ...]) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    plain = house.json("record", "quarantine.checked", "PEB=breathing")["recorded"][0]
    told = house.json("quarantine", *typed)["recorded"]
    assert [set(row) for row in told] == [set(plain)] * len(told)
    assert told[0]["kind"].startswith("quarantine.")
    assert told[0]["animal"] == "PEB"


def test_a_result_finds_its_sample_and_asks_where_there_are_several(house: Keeper) -> None:
    house.run("quarantine", "start", "EMB", "--protocol", "long")
    first = house.json("quarantine", "sample", "EMB", "faecal")["recorded"][0]["event"]
    house.run("quarantine", "sample", "EMB", "blood")
    asked = house.run("quarantine", "result", "EMB", "negative", ok=False)
    assert asked.code == 2
    assert f"{first} (faecal" in asked.stderr
    house.run("quarantine", "result", "EMB", "negative", "--test", "blood")
    house.run("quarantine", "result", "EMB", "unclear", "--sample", first)
    assert house.run("quarantine", "result", "EMB", "negative", ok=False).code == 3


def test_a_result_keeps_to_its_sample_when_that_is_corrected(house: Keeper) -> None:
    arrive(house)
    house.pass_days(5)
    number = house.json("quarantine", "sample", "PEB", "faecal")["recorded"][0]["event"]
    house.run("quarantine", "result", "PEB", "negative")
    house.run("correct", number, "method=smear", "--at", "2026-03-08")
    assert shown(house)["tests"][0]["negative"] == 1
    assert shown(house)["tests"][0]["next_sample"] == "2026-03-22"


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        (("sample", "PEB", "faecl"), 3),
        (("sample", "PEB", "faecal", "--method", "guess"), 3),
        (("sample", "EMB", "faecal"), 4),
        (("result", "PEB", "negative", "--at", "2026-03-01"), 2),
        (("result", "PEB", "maybe"), 2),
        (("result", "PEB", "negative", "--sample", "1"), 3),
        (("result", "EMB", "negative"), 3),
        (("check", "PEB", "mties"), 3),
        (("check", "PEB", "weight"), 2),
        (("check", "PEB", "mites", "breathing", "--found"), 2),
        (("check", "PEB", "mites", "--what", "x"), 2),
        (("check", "EMB", "mites"), 4),
    ],
)
def test_bad_tests_and_checks_are_one_line(
    house: Keeper, typed: tuple[str, ...], code: int
) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    before = house.run("history").stdout
    refused = house.run("quarantine", *typed, ok=False)
    assert refused.code == code, refused.stderr
    assert len(refused.stderr.strip().splitlines()) == 1
    assert "<" not in refused.stderr
    assert house.run("history").stdout == before


def test_a_positive_result_after_the_release_is_found(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    house.pass_days(1)
    house.run("quarantine", "release", "PEB", "--to", "SHE", "--override", "x")
    house.pass_days(1)
    house.run("quarantine", "result", "PEB", "positive")
    found = [f for f in house.json("today")["findings"] if f["code"] == "quarantine.late_positive"]
    assert [f["level"] for f in found] == ["act now"]
    house.run("quarantine", "start", "PEB")
    told = [f["code"] for f in house.json("today")["findings"] if "positive" in f["code"]]
    assert told == ["quarantine.positive"]
    house.run("record", "examined", "PEB", "--told", "sample again")
    told = [f["code"] for f in house.json("today")["findings"] if "positive" in f["code"]]
    assert told == []
