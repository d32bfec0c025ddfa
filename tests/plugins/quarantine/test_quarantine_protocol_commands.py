"""Protocols listed, shown, changed for the collection, added and dropped."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper

OWN = """
[garden]
title = "garden room, 45 days"
group = "garden"
tools = "blue box"
warning = ""
days = 45
result_wait_days = 10
[garden.checks.mites]
title = "mite check"
every_days = 5
[garden.restarts]
newcomer_in_room = true
positive_test = true
mite_sighted = true
return = false
[garden.ends]
checks_up_to_date = true
"""


@pytest.fixture
def own_file(tmp_path: Path) -> Path:
    file = tmp_path / "own.toml"
    file.write_text(OWN, encoding="utf-8")
    return file


def listed(keeper: Keeper) -> dict[str, dict]:
    return {p["name"]: p for p in keeper.json("quarantine", "protocols")["protocols"]}


def value(keeper: Keeper, protocol: str, key: str) -> dict:
    rows = keeper.json("quarantine", "protocol", "show", protocol)["values"]
    return next(r for r in rows if r["key"] == key)


def test_the_shipped_protocols_are_listed(house: Keeper) -> None:
    """30 days: AZA; 90 days: Clinician's Brief 2008; 180 days: Origgi 2019 (published)."""
    found = listed(house)
    assert {n: p["days"] for n, p in found.items()} == {"general": 90, "short": 30, "long": 180}
    assert [n for n, p in found.items() if p["usual"]] == ["general"]


def test_every_value_is_shown_with_source_and_mark(house: Keeper) -> None:
    days = value(house, "general", "days")
    assert (days["value"], days["mark"]) == ("90", "secondary")
    assert "90 days" in days["source"]
    assert value(house, "general", "tests.faecal.spacing_days")["value"] == "14"


def test_the_short_one_says_its_warning(house: Keeper) -> None:
    assert "floor set for zoos" in house.run("quarantine", "protocol", "show", "short").stdout


def test_a_changed_value_is_the_keepers_own_and_can_be_taken_back(house: Keeper) -> None:
    house.run("quarantine", "protocol", "edit", "general", "tests.faecal.negatives=4", "days=100")
    changed = value(house, "general", "tests.faecal.negatives")
    assert (changed["value"], changed["mark"], changed["original"]) == ("4", "keeper's own", "3")
    house.run("quarantine", "protocol", "edit", "general", "days=110")
    assert listed(house)["general"]["days"] == 110
    house.run("undo")
    assert listed(house)["general"]["days"] == 100
    house.run("quarantine", "protocol", "edit", "general", "days=default")
    assert listed(house)["general"]["days"] == 90


def test_fewer_days_than_the_floor_are_warned_of(house: Keeper) -> None:
    told = house.run("quarantine", "protocol", "edit", "short", "days=14").stdout
    assert "below the floor of 30 days" in " ".join(told.split())


def test_an_own_protocol_works_like_a_shipped_one(house: Keeper, own_file: Path) -> None:
    house.run("quarantine", "protocol", "add", str(own_file))
    house.run("plugin", "set", "quarantine", "protocol", "garden")
    house.run("arrive", "Pebble", "--species", "leopard gecko", "--enclosure", "TUB")
    state = house.json("quarantine", "show", "PEB")
    assert (state["days"], state["tools"]) == (45, "blue box")
    assert [c["check"] for c in state["checks"]] == ["mite check"]
    assert value(house, "garden", "days")["mark"] == "keeper's own"


def test_an_own_protocol_is_dropped_unless_it_was_used(house: Keeper, own_file: Path) -> None:
    house.run("quarantine", "protocol", "add", str(own_file))
    house.run("quarantine", "protocol", "edit", "garden", "days=50")
    house.run("quarantine", "protocol", "drop", "garden")
    assert "garden" not in listed(house)
    house.run("undo")
    assert listed(house)["garden"]["days"] == 50
    house.run("quarantine", "start", "EMB", "--protocol", "garden")
    assert house.run("quarantine", "protocol", "drop", "garden", ok=False).code == 4


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (OWN + "\ncolour = 1\n", "colour"),
        (OWN.replace("days = 45", "dys = 45"), "dys"),
        (OWN.replace("days = 45", "days = -4"), "days"),
        (OWN.replace("days = 45\n", ""), "days is missing"),
        ("[garden", "is not TOML"),
        ("", "holds no protocol"),
        ("days = 4", "it is a table"),
        (OWN.replace("[garden", "[Gar den"), "is not TOML"),
        (OWN.replace("garden", "general"), "there is a protocol general"),
    ],
)
def test_a_bad_protocol_file_is_one_line_and_adds_nothing(
    house: Keeper, own_file: Path, text: str, words: str
) -> None:
    own_file.write_text(text, encoding="utf-8")
    refused = house.run("quarantine", "protocol", "add", str(own_file), ok=False)
    assert refused.code in (2, 4)
    assert words in refused.stderr
    assert len(refused.stderr.strip().splitlines()) == 1
    assert set(listed(house)) == {"general", "short", "long"}


def test_a_file_that_is_no_text_or_not_there(house: Keeper, own_file: Path) -> None:
    own_file.write_bytes(b"\xff\xfe\x00")
    assert house.run("quarantine", "protocol", "add", str(own_file), ok=False).code == 2
    assert house.run("quarantine", "protocol", "add", str(own_file) + "x", ok=False).code == 2
    own_file.write_bytes(b"#" * 200_000)
    assert house.run("quarantine", "protocol", "add", str(own_file), ok=False).code == 2


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        (("show", "genral"), 3),
        (("edit", "genral", "days=4"), 3),
        (("edit", "general", "days=0"), 2),
        (("edit", "general", "days=5000"), 2),
        (("edit", "general", "dayss=5"), 2),
        (("edit", "general", "dayss=default"), 2),
        (("edit", "general", "days"), 2),
        (("edit", "general", "title=a;b"), 2),
        (("drop", "general"), 4),
        (("drop", "nothing"), 3),
    ],
)
def test_bad_input_is_one_line(house: Keeper, typed: tuple[str, ...], code: int) -> None:
    refused = house.run("quarantine", "protocol", *typed, ok=False)
    assert refused.code == code
    assert len(refused.stderr.strip().splitlines()) == 1
    assert listed(house)["general"]["days"] == 90
