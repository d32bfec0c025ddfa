"""What a described enclosure asks for again and again, settled by `done`."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.presets import preset_text
from warmside.plugins.habitat.described.upkeep import Every, Known, due
from warmside.testing import Keeper, copy_of, new_keeper

TUB = read_description(preset_text("tub").replace("# SAY ", ""), "tub")
TODAY = date(2026, 3, 5)
EVERY = Every(water=2, substrate=90, lamp=365, mist=1)


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Ember in a described enclosure with bowl, substrate and an old lamp (invented)."""
    folder = tmp_path_factory.mktemp("upkeep")
    keeper = new_keeper(folder, plugins=["habitat"])
    keeper.run("enclosure", "add", "Shelf", "--code", "SHE")
    home = ("--enclosure", "SHE", "--since", "2025-01-01")
    keeper.run("animal", "add", "Ember", "--species", "ball python", *home)
    text = preset_text("snake").replace("# SAY ", "")
    text = text.replace("hours = 12", "hours = 12\nsince = 2025-03-01")
    text += '\n[[fitting]]\nkind = "substrate"\nzone = "middle"\nheight = "5cm"\n'
    (folder / "set_up.toml").write_text(text, "utf-8")
    keeper.run("habitat", "describe", "SHE", folder / "set_up.toml", "--on", "2025-06-01")
    keeper.run("record", "watered", "SHE")
    keeper.run("record", "cleaned", "SHE", "--extent", "full")
    return keeper


@pytest.fixture
def keeper(ready: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(ready, tmp_path)


def tasks(keeper: Keeper) -> list[str]:
    with keeper.ask() as ask:
        return [stop.task.what for stop in ask.round(ask.book.today)]


def test_an_old_lamp_is_due_and_done_notes_the_new_one(keeper: Keeper) -> None:
    assert tasks(keeper) == ["replace the day light (L1)"]
    keeper.run("today")
    assert "new day light in SHE" in keeper.run("done", "1").stdout
    assert tasks(keeper) == []
    (light,) = keeper.json("habitat", "show", "SHE")["lights"]
    assert light["since"] == "2026-03-05"
    then = keeper.json("habitat", "show", "SHE", "--on", "2026-03-04")["lights"][0]["since"]
    assert then == "2025-03-01", "the day before shows the lamp of before"
    keeper.run("undo")
    assert tasks(keeper) == ["replace the day light (L1)"]


def test_water_and_substrate_are_due_again_and_settled_by_what_is_recorded(keeper: Keeper) -> None:
    keeper.pass_days(2)
    assert "fresh water" in tasks(keeper)
    keeper.run("record", "watered", "SHE")
    assert "fresh water" not in tasks(keeper)
    keeper.pass_days(88)
    assert "clean it out, new substrate" in tasks(keeper)
    keeper.run("record", "cleaned", "SHE")
    assert "clean it out, new substrate" in tasks(keeper), "a spot is not all of it"
    keeper.run("record", "cleaned", "SHE", "--extent", "full")
    assert "clean it out, new substrate" not in tasks(keeper)
    keeper.run("plugin", "set", "habitat", "water_days", "0", "--enclosure", "SHE")
    assert "fresh water" not in tasks(keeper)


def test_it_is_misted_each_day_while_opaque_and_no_longer(keeper: Keeper) -> None:
    keeper.run("record", "shedding", "EMB=opaque")
    assert "mist" in tasks(keeper)
    keeper.run("record", "misted", "SHE")
    assert "mist" not in tasks(keeper)
    keeper.pass_days(1)
    assert "mist" in tasks(keeper)
    keeper.run("record", "shed", "EMB")
    assert "mist" not in tasks(keeper)


def test_air_that_is_damp_already_is_not_misted(keeper: Keeper) -> None:
    keeper.run("record", "shedding", "EMB=opaque")
    damp = ("habitat.read", "SHE", "--zone", "middle", "--humidity")
    keeper.run("record", *damp, "70%")
    assert "mist" in tasks(keeper)
    keeper.run("record", *damp, "95%")
    assert "mist" not in tasks(keeper)


def test_an_opaque_animal_without_a_humid_hide_is_told_of(keeper: Keeper) -> None:
    keeper.run("record", "shedding", "EMB=opaque")
    codes = [f["code"] for f in keeper.json("today")["findings"]]
    assert "habitat.humid" not in codes
    keeper.run("habitat", "remove", "SHE", "humid hide")
    (told,) = [f for f in keeper.json("today")["findings"] if f["code"] == "habitat.humid"]
    assert told["level"] == "look soon" and "is opaque" in told["words"]


@given(st.integers(0, 400), st.integers(0, 400), st.integers(0, 30))
def test_what_was_done_within_its_days_is_never_asked_for(
    watered: int, misted: int, every: int
) -> None:
    known = Known(
        TODAY - timedelta(days=500),
        watered=TODAY - timedelta(days=watered),
        misted=TODAY - timedelta(days=misted),
        opaque=((1, TODAY - timedelta(days=3)),),
    )
    asked = {one.what for one in due(TUB, known, replace(EVERY, water=every, mist=every), TODAY)}
    assert ("water" in asked) == (0 < every <= watered)
    assert ("mist" in asked) == (every > 0 and (misted > 3 or every <= misted))
