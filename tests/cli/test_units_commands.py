"""Units by quantity, changed any day; numbers typed without a unit; ages that read as ages."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.core.plugins.manifest import Setting
from warmside.core.values.units import Unit
from warmside.testing import Keeper, copy_of, new_keeper, throw_away_plugin


@pytest.fixture(scope="module")
def us_keeper_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `keeper` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("keeper"))
    keeper.run("enclosure", "add", "Shelf", "--width", "122")
    about = ("--species", "ball python", "--hatched", "2024-02-06", "--enclosure", "SHE")
    keeper.run("animal", "add", "Mossy", *about)
    return keeper


@pytest.fixture
def keeper(us_keeper_once: Keeper, tmp_path: Path) -> Keeper:
    """Mossy, hatched 2024-02-06, in a shelf; the day is 2026-03-05."""
    return copy_of(us_keeper_once, tmp_path)


def units(keeper: Keeper, typed: str) -> dict[str, str]:
    """Change the units; gives what is shown for each quantity now."""
    rows = keeper.json("file", "change", "--units", typed)["units"]
    return {row["quantity"]: row["unit"] for row in rows}


def test_units_change_by_preset_and_by_quantity(keeper: Keeper) -> None:
    shown = units(keeper, "us trade")
    assert (shown["mass"], shown["length"], shown["temperature"]) == ("g", "in", "°F")
    assert units(keeper, "mass=oz,length=cm")["mass"] == "oz"
    assert units(keeper, "growth_rate=g/day")["temperature difference"] == "°F"


def test_a_change_of_units_is_seen_at_once_and_taken_back_by_undo(keeper: Keeper) -> None:
    keeper.run("record", "weighed", "MOS=660g")
    keeper.run("file", "change", "--units", "imperial")
    assert "1 lb 7.3 oz" in keeper.run("history").stdout
    assert "imperial" in keeper.run("undo").stdout
    assert "660 g" in keeper.run("history").stdout


def test_json_stays_in_stored_units(keeper: Keeper) -> None:
    before = keeper.json("enclosure", "show", "SHE")
    keeper.run("file", "change", "--units", "imperial")
    assert keeper.json("enclosure", "show", "SHE") == before


@pytest.mark.parametrize(
    ("typed", "said"),
    [("mass=stone", "it can be in: g, kg"), ("metric", "metric already"), ("us", "us trade")],
)
def test_units_that_cannot_be_are_refused_in_one_line(
    keeper: Keeper, typed: str, said: str
) -> None:
    refused = keeper.run("file", "change", "--units", typed, ok=False)
    assert said in refused.complaint(4 if typed == "metric" else 2)


def test_a_new_collection_takes_a_preset(tmp_path: Path) -> None:
    keeper = Keeper(tmp_path / "us.warmside")
    keeper.run("new", "--name", "Room", "--zone", "America/Denver", "--units", "US-trade")
    made = keeper.run("enclosure", "add", "Shelf", "--width", "48").stdout
    assert "inner width: 48 in" in made


# numbers without a unit


def test_a_bare_number_is_in_the_unit_of_the_collection_and_said_back(keeper: Keeper) -> None:
    assert "660 g" in keeper.run("record", "weighed", "MOS=660").stdout
    keeper.run("file", "change", "--units", "mass=oz")
    assert "1 lb 7.3 oz" in keeper.run("record", "weighed", "MOS=23.28").stdout


def test_a_bare_size_is_in_the_unit_of_the_collection(keeper: Keeper) -> None:
    assert keeper.json("enclosure", "show", "SHE")["width_mm"] == 1220.0
    keeper.run("file", "change", "--units", "us trade")
    keeper.run("enclosure", "change", "SHE", "--width", "48")
    assert keeper.json("enclosure", "show", "SHE")["width_mm"] == pytest.approx(1219.2)


def test_a_bare_temperature_is_read_as_it_is_shown(keeper: Keeper) -> None:
    keeper.run("file", "change", "--units", "us trade")
    said = keeper.run("record", "climate", "SHE", "--warm", "88", "--cool", "25C").stdout
    assert "warm 88 °F" in said and "cool 77 °F" in said


def test_a_bare_setting_is_read_and_its_limits_said_as_settings_are_shown(keeper: Keeper) -> None:
    """A setting that is a temperature, of a plugin made for this test."""
    warm = Setting("warm", "how warm", 30.0, "invented", Unit.TEMPERATURE, 20.0, 40.0)
    keeper.run("file", "change", "--units", "us trade")
    with throw_away_plugin("birch", manifest={"settings": (warm,)}):
        keeper.run("plugin", "enable", "birch")
        assert "is now 88 °F" in keeper.run("plugin", "set", "birch", "warm", "88").stdout
        refused = keeper.run("plugin", "set", "birch", "warm", "150", ok=False).complaint(2)
    assert "between 68 °F and 104 °F, not 150 °F" in refused


def test_a_bare_number_in_a_correction_counts_the_same(keeper: Keeper) -> None:
    keeper.run("record", "weighed", "MOS=660")
    number = keeper.json("history")["events"][-1]["event"]
    keeper.run("file", "change", "--units", "imperial")
    said = keeper.run("correct", number, "mass=24").stdout
    assert "1 lb 8 oz" in said


@pytest.mark.parametrize(
    ("header", "kept"), [("mass_g", True), ("mass", False)], ids=["with unit", "without"]
)
def test_a_spreadsheet_never_takes_the_units_of_the_day(
    keeper: Keeper, tmp_path: Path, header: str, kept: bool
) -> None:
    """A column that names its unit keeps it; one that does not must be given one."""
    keeper.run("file", "change", "--units", "imperial")
    sheet = tmp_path / "sheet.csv"
    sheet.write_text(f"date,animal,kind,{header}\n2026-03-01,MOS,weighed,660\n", encoding="utf-8")
    done = keeper.run("import", sheet, ok=False)
    assert ("660g or 660oz" in done.stderr) is not kept


# ages


def test_the_card_says_how_old_an_animal_is(keeper: Keeper) -> None:
    assert "age:         2 y 1 m" in keeper.run("animal", "show", "MOS").stdout
    assert keeper.json("animal", "show", "MOS")["age_days"] == 758


def test_an_age_is_a_range_where_only_the_month_of_hatching_is_known(keeper: Keeper) -> None:
    keeper.run("animal", "change", "MOS", "--hatched", "2026-01")
    assert "5 weeks to 9 weeks" in keeper.run("animal", "show", "MOS").stdout


def test_the_dead_grow_no_older(keeper: Keeper) -> None:
    keeper.run("record", "died", "MOS")
    keeper.pass_days(400)
    assert "age at death: 2 y 1 m" in keeper.run("animal", "show", "MOS").stdout
