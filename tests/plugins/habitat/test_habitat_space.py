"""An enclosure under published rules for who lives there, by what is on record of them."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from warmside.api import About
from warmside.testing import Keeper, copy_of, new_keeper

TODAY = date(2026, 3, 5)


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A young ball python that doubled its mass since August (invented)."""
    keeper = new_keeper(tmp_path_factory.mktemp("fern"), plugins=["habitat", "weight"])
    size = ("--width", "120cm", "--depth", "80cm", "--height", "60cm")
    keeper.run("enclosure", "add", "Low", "--code", "LOW", *size)
    home = ("--enclosure", "LOW", "--since", "2025-06-01", "--hatched", "2025-05-01")
    keeper.run("animal", "add", "Fern", "--species", "ball python", "--sex", "female", *home)
    for day, mass in (("2025-08-01", 150), ("2025-10-01", 210), ("2025-12-01", 270)):
        keeper.run("record", "weighed", f"FER={mass}g", "--at", day)
    keeper.run("record", "weighed", "FER=330g", "--at", "2026-03-01")
    return keeper


@pytest.fixture
def keeper(ready: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(ready, tmp_path)


def test_each_rule_says_when_it_is_outgrown(keeper: Keeper) -> None:
    unknown = keeper.run("habitat", "space", "LOW").stdout
    assert "no length on record, and none is guessed" in unknown
    keeper.run("record", "measured", "FER", "--total", "75cm", "--at", "2026-02-01")
    told = keeper.json("habitat", "space", "LOW")
    assert 700 < told["fer_length_low_mm"] < told["fer_length_high_mm"] < 900
    rows = {r["rule"].split(",")[0]: r for r in told["fer_rules"]}
    awc = rows["United Kingdom"]
    assert awc["ok"] and awc["from_days"] > 60
    assert "month" in awc["outgrown"]
    laboratory = rows["European Union"]
    assert laboratory["outgrown"] == "not by what is known" and laboratory["from_days"] is None


def test_the_size_on_record_serves_until_it_is_described(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Bare", "--code", "BAR")
    told = keeper.run("habitat", "space", "BAR", ok=False).complaint(2)
    assert "enclosure change BAR --width" in told
    keeper.run("enclosure", "add", "Empty", "--code", "EMP", *("--width", "1m"), "--depth", "1m")
    keeper.run("enclosure", "change", "EMP", "--height", "1m")
    assert "nobody lives in EMP" in keeper.run("habitat", "space", "EMP", ok=False).complaint(3)
    keeper.run("record", "measured", "FER", "--total", "75cm")
    before = keeper.json("habitat", "space", "LOW")["fer_rules"][0]["margin_percent"]
    box = ("--wall", "wood", "--wall-thickness", "15mm", "--zones", "warm 45cm, cool 45cm")
    keeper.run("habitat", "describe", "LOW", "--width", "90cm", *box, "--confirm")
    after = keeper.json("habitat", "space", "LOW")["fer_rules"][0]["margin_percent"]
    assert after < before


def words(keeper: Keeper, *typed: str) -> str:
    return " ".join(keeper.run(*typed).stdout.split())


def length_of(keeper: Keeper) -> list[tuple[float, float]]:
    with keeper.open().ask(keeper.now) as ask:
        about = About(ask.book.animal("FER").id)
        return [(a.estimate.low, a.estimate.high) for a in ask.answers("length", about, TODAY)]


def test_its_length_is_answered_as_measured_and_grown_since(keeper: Keeper) -> None:
    assert length_of(keeper) == []
    keeper.run("record", "measured", "FER", "--total", "60cm", "--at", "2025-10-01")
    ((low, high),) = length_of(keeper)
    heavier = 330 / 210
    assert low < 600 * heavier ** (1 / 3.26) < 600 * heavier ** (1 / 2.30) < high
    keeper.run("plugin", "disable", "weight")
    assert length_of(keeper) == []  # it may have grown, by nobody knows how much
    keeper.run("record", "measured", "FER", "--total", "75cm", "--girth", "15cm")
    assert length_of(keeper) == [(pytest.approx(727.5), pytest.approx(772.5))]


def test_whether_a_snake_can_lie_coiled_in_the_warmth_rests_on_its_measures(keeper: Keeper) -> None:
    box = ("--wall", "wood", "--wall-thickness", "15mm", "--zones", "warm 60cm, cool 60cm")
    keeper.run("habitat", "describe", "LOW", *box)
    sure = ("--watts", "60", "--guard", "yes", "--thermostat", "yes", "--reach", "no", "--why", "x")
    for size in ("40cm", "10cm"):
        square = ("--width", size, "--depth", size, "--height", "3cm")
        keeper.run("habitat", "add", "panel", "LOW", "--zone", "warm", *square, *sure)
    heat = ("habitat", "heat", "LOW", "--room", "20C", "--hold", "31C")
    untold = words(keeper, *heat)
    assert "length and girth are on record" in untold
    keeper.run("record", "measured", "FER", "--total", "75cm", "--girth", "15cm")
    told = keeper.json(*heat)["covered"]
    assert [(r["animal"], r["coil"]) for r in told] == [("FER", True), ("FER", False)]
    assert "Coiled flat FER takes a disc of 21 cm to 22 cm across" in words(keeper, *heat)
