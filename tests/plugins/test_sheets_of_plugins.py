"""What plugins say on sheets for other people: diet, quarantine, set-up, numbers, hours of heat."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

SET_UP = """
width = "120cm"
depth = "60cm"
height = "60cm"
wall = "wood"
wall_thickness = "15mm"
air_changes = [0.5, 2.0]
[[zone]]
name = "warm side"
left = "0cm"
width = "60cm"
air = ["30C", "32C"]
[[zone]]
name = "cool side"
left = "60cm"
width = "60cm"
air = ["25C", "27C"]
[[light]]
kind = "uv lamp"
hours = 12
leave = true
uv_index = 2
since = 2026-01-04
"""


@pytest.fixture(scope="session")
def _equipped(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    plugins = ["feeding", "habitat", "labels", "quarantine"]
    keeper = new_keeper(tmp_path_factory.mktemp("equipped"), plugins=plugins)
    described = keeper.path.parent / "set_up.toml"
    described.write_text(SET_UP)
    for place in ("Low", "High"):
        keeper.run("enclosure", "add", place, "--room", "Attic")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "LOW")
    keeper.run("record", "weighed", "EMB=1400g")
    keeper.run("arrive", "Moss", "--species", "leopard gecko", "--enclosure", "HIG")
    keeper.run("habitat", "describe", "LOW", described, "--confirm")
    keeper.run("plugin", "set", "labels", "contact", "Ann, 0000 111")
    keeper.run("plugin", "set", "labels", "do_nots", "open the window; smoke")
    return keeper


@pytest.fixture
def equipped(_equipped: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(_equipped, tmp_path)


def told(keeper: Keeper, *typed: str) -> dict[str, str]:
    """The words of each section of a sheet."""
    sections = keeper.json("sheet", *typed)["sections"]
    return {s["title"]: " ".join(note["text"] for note in s["notes"]) for s in sections}


def rows(keeper: Keeper) -> dict[str, dict[str, Any]]:
    sections = keeper.json("sheet", "emergency")["sections"]
    table = next(s["animals"] for s in sections if s["title"] == "Who is where")
    return {row["enclosure"]: row for row in table}


def test_a_vet_reads_of_diet_lamps_and_quarantine(equipped: Keeper) -> None:
    ember = told(equipped, "vet", "EMB")
    assert "rat" in ember["Diet as planned"] and "every" in ember["Diet as planned"]
    lamp = "uv lamp, 12 hours a day, UV index 2 where it basks, in use for 60 days"
    assert lamp in ember["Set-up"]
    assert "Quarantine" not in ember
    moss = told(equipped, "vet", "MOS")["Quarantine"]
    assert "day 0 of 90" in moss and "faecal examination: 0 of 3 negative" in moss
    assert "of 0 negative" not in moss


def test_a_sitter_reads_how_to_thaw_and_whom_to_call(equipped: Keeper) -> None:
    found = told(equipped, "sitter", "--until", "2026-03-12")
    assert "keeper: Ann, 0000 111" in found["Whom to call"]
    assert found["Never"].startswith("– open the window – smoke – leave a door")
    assert "Thawing:" in found["Feeding"] and "Live insects:" in found["Feeding"]
    only_snakes = equipped.run("sheet", "sitter", "--until", "2026-03-12").stdout
    assert "Greens" not in only_snakes


def test_the_heat_may_be_off_for_a_range_that_grows_with_the_room(equipped: Keeper) -> None:
    """The lumped model itself is held against SciPy in the tests of habitat."""
    cold = rows(equipped)
    assert cold["HIG"]["warm"] == "not known: act at once"
    equipped.run("plugin", "set", "habitat", "cut_room", "18C")
    mild = rows(equipped)
    assert 0 < cold["LOW"]["least_hours"] < mild["LOW"]["least_hours"] < 72
    assert cold["LOW"]["least_hours"] < cold["LOW"]["most_hours"]
    assert "in a room of 18 °C" in told(equipped, "emergency")["Heat or power off"]
    equipped.run("plugin", "set", "habitat", "cut_room", "30C")
    assert rows(equipped)["LOW"]["warm"] == "72 h or more"


def test_who_is_cooled_on_purpose_has_no_hours(equipped: Keeper) -> None:
    equipped.run("record", "cooling", "EMB", "--state", "begun")
    assert rows(equipped)["LOW"]["warm"].startswith("in winter rest: leave it cool")
    assert rows(equipped)["LOW"].get("least_hours") is None
