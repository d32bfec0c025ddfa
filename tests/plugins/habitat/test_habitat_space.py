"""An enclosure under published rules for who lives there, by what is on record of them."""

from __future__ import annotations

from pathlib import Path

from warmside.testing import Keeper, new_keeper


def fern(folder: Path) -> Keeper:
    """A young ball python that doubled its mass since August (invented)."""
    keeper = new_keeper(folder, plugins=["habitat", "weight"])
    size = ("--width", "120cm", "--depth", "80cm", "--height", "60cm")
    keeper.run("enclosure", "add", "Low", "--code", "LOW", *size)
    home = ("--enclosure", "LOW", "--since", "2025-06-01", "--hatched", "2025-05-01")
    keeper.run("animal", "add", "Fern", "--species", "ball python", "--sex", "female", *home)
    for day, mass in (("2025-08-01", 150), ("2025-10-01", 210), ("2025-12-01", 270)):
        keeper.run("record", "weighed", f"FER={mass}g", "--at", day)
    keeper.run("record", "weighed", "FER=330g", "--at", "2026-03-01")
    return keeper


def test_each_rule_says_when_it_is_outgrown(tmp_path: Path) -> None:
    keeper = fern(tmp_path)
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


def test_the_size_on_record_serves_until_it_is_described(tmp_path: Path) -> None:
    keeper = fern(tmp_path)
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
