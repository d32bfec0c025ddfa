"""Light in a collection: a timer by the home of a species, UV against the zone of who is inside."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

LAMP = ("--name", "UVB tube", "--leave", "yes", "--why", "for its bones")


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("lit"), plugins=["habitat"])
    size = ("--width", "120cm", "--depth", "60cm", "--height", "60cm")
    for code, species in (("SUN", "bearded dragon"), ("LEO", "leopard gecko")):
        keeper.run("enclosure", "add", code.title(), "--code", code, *size)
        keeper.run("animal", "add", species, "--species", species, "--enclosure", code)
    return keeper


@pytest.fixture
def keeper(ready: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(ready, tmp_path)


def read(keeper: Keeper, code: str, zone: str, index: str, *more: str) -> None:
    typed = ("--zone", zone, "--uv-index", index)
    keeper.run("record", "habitat.read", code, *typed, *more)


def found(keeper: Keeper) -> list[tuple[str, str]]:
    told = keeper.json("today")["findings"]
    return [(f["level"], f["code"]) for f in told if f["code"] == "habitat.uv"]


def test_the_highest_place_counts_and_shade_is_no_lack(keeper: Keeper) -> None:
    read(keeper, "SUN", "shade", "0.2")
    read(keeper, "SUN", "basking branch", "4.1")
    told = keeper.json("habitat", "uv", "SUN")
    assert (told["measured_uvi"], told["judged"]) == (4.1, "within")
    assert found(keeper) == []


def test_too_much_for_any_and_too_little_for_one_that_needs_it(keeper: Keeper) -> None:
    read(keeper, "LEO", "top of the cork", "0.0")
    assert found(keeper) == []  # it is out at dusk: no sun is no lack
    read(keeper, "SUN", "basking branch", "1.0")
    assert found(keeper) == [("look soon", "habitat.uv")]
    read(keeper, "SUN", "basking branch", "2.0")
    assert found(keeper) == [("note", "habitat.uv")]
    read(keeper, "LEO", "top of the cork", "3.5")
    assert ("look soon", "habitat.uv") in found(keeper)


def test_what_was_read_of_an_old_lamp_says_nothing_of_a_new_one(keeper: Keeper) -> None:
    read(keeper, "SUN", "basking branch", "1.0", "--at", "2026-01-10")
    assert found(keeper) == [("look soon", "habitat.uv")]
    box = ("--wall", "wood", "--wall-thickness", "15mm", "--zones", "warm 60cm, cool 60cm")
    keeper.run("habitat", "describe", "SUN", *box)
    keeper.run("habitat", "add", "light", "SUN", *LAMP, "--since", "2026-02-01")
    assert found(keeper) == []
    assert "No UV index was read" in keeper.run("habitat", "uv", "SUN").stdout
    keeper.run("habitat", "change", "SUN", "L1", "--uv-index", "12")
    assert keeper.json("habitat", "uv", "SUN")["judged"] == "above"


def test_a_timer_by_the_home_of_a_species(keeper: Keeper) -> None:
    told = keeper.json("habitat", "light", "--species", "bearded dragon")
    hours = {row["week"]: row["hours_hours"] for row in told["weeks"]}
    assert hours["2026-12-17"] > 13.8 and hours["2026-06-18"] < 10.5
    wide = keeper.run("habitat", "light", "--species", "Boa constrictor", ok=False)
    assert "too wide" in wide.complaint(3)
    both = ("habitat", "light", "--species", "bearded dragon", "--latitude", "48")
    assert "not both" in keeper.run(*both, ok=False).complaint(2)
