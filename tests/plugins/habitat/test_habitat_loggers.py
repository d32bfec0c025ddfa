"""A logger in an enclosure: hung, read out, checked, judged, told."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from warmside.api import About
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Ember, a corn snake, in an enclosure with a logger of three probes."""
    keeper = new_keeper(tmp_path_factory.mktemp("ready"), plugins=["habitat"])
    keeper.run("enclosure", "add", "Shelf", "--code", "SHE")
    keeper.run("animal", "add", "Ember", "--species", "corn snake", "--enclosure", "SHE")
    probes = ("T1=warm side", "T2=cool side", "RH=hide:humidity")
    options = [x for p in probes for x in ("--probe", p)]
    keeper.run("habitat", "logger", "SHE", "grey", *options)
    return keeper


@pytest.fixture
def keeper(ready: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(ready, tmp_path)


def logged(keeper: Keeper, folder: Path, warm: float = 30.0, cool: float = 23.0) -> Path:
    """A file of five days up to now, a row each ten minutes, cooler at night."""
    file, now = folder / "log.csv", keeper.now.replace(tzinfo=None)
    rows = ["time,T1,T2,RH"]
    at = now - timedelta(days=5)
    while at <= now:
        lit = 8 <= at.hour < 20
        rows.append(f"{at:%Y-%m-%d %H:%M},{warm if lit else 22},{cool if lit else 20.5},52")
        at += timedelta(minutes=10)
    file.write_text("\n".join(rows), "utf-8")
    return file


def findings(keeper: Keeper) -> list[str]:
    return [f["code"] for f in keeper.json("today")["findings"]]


def test_a_file_is_read_once(keeper: Keeper, tmp_path: Path) -> None:
    file = logged(keeper, tmp_path)
    assert "2163 new readings" in keeper.run("habitat", "read", "grey", file).stdout
    assert "0 new readings, 2163 were known" in keeper.run("habitat", "read", "grey", file).stdout
    keeper.run("undo")
    keeper.run("undo")
    assert keeper.json("habitat", "loggers")["loggers"][0]["last"] is None


def test_a_bad_row_leaves_nothing(keeper: Keeper, tmp_path: Path) -> None:
    file = logged(keeper, tmp_path)
    file.write_text(file.read_text("utf-8") + "\n2026-03-05 11:55,hot,23,52\n", "utf-8")
    done = keeper.run("habitat", "read", "grey", file, ok=False)
    assert done.code == 2 and "line 723: 'hot' in 'T1' is no number" in done.stderr
    assert keeper.json("habitat", "loggers")["loggers"][0]["last"] is None


def test_fahrenheit_that_was_hung_as_celsius_is_asked_about(keeper: Keeper, tmp_path: Path) -> None:
    file = logged(keeper, tmp_path, warm=86, cool=75)
    told = keeper.run("habitat", "read", "grey", file, ok=False).complaint(4)
    assert "is it Fahrenheit" in told and "T1=warm side:air:F" in told
    assert keeper.json("habitat", "loggers")["loggers"][0]["last"] is None
    keeper.run("habitat", "read", "grey", file, "--confirm")


def test_a_file_in_another_encoding_is_read_as_it_is_named(keeper: Keeper, tmp_path: Path) -> None:
    file = logged(keeper, tmp_path)
    text = file.read_text("utf-8").replace("time,T1", "time,°C,T1").replace(":00,", ":00,x,")
    file.write_bytes(text.replace(":10,", ":10,x,").encode("cp1252"))
    assert "--encoding cp1252" in keeper.run("habitat", "read", "grey", file, ok=False).complaint(2)
    named = ("habitat", "read", "grey", file, "--encoding")
    assert "such as utf-8" in keeper.run(*named, "klingon", ok=False).complaint(2)


def test_zones_by_day_and_night(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path, warm=33))
    found = keeper.json("habitat", "zones", "SHE")
    warm, cool = found["air"]
    assert (warm["day_middle_c"], warm["night_middle_c"], cool["day_middle_c"]) == (33, 22, 23)
    assert found["spread_k"] == 10
    assert [row["night_drop_k"] for row in found["air_log"]] == [11, 2.5]
    outside = found["air_outside"][0]
    assert outside["hours_over_hours"] > 40 and outside["hours_under_hours"] == 0
    assert found["humidity"][0]["middle_percent"] == 52
    assert findings(keeper) == [], "a place that is well is left in peace"


def test_the_spread_is_that_of_the_probe_that_measured_most_of_a_zone(
    keeper: Keeper, tmp_path: Path
) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path, warm=33))
    keeper.run("habitat", "logger", "SHE", "old", "--probe", "T=warm side")
    (tmp_path / "old.csv").write_text("time,T\n2026-03-02 10:00,25\n2026-03-02 10:10,25\n", "utf-8")
    keeper.run("habitat", "read", "old", tmp_path / "old.csv")
    found = keeper.json("habitat", "zones", "SHE")
    assert found["spread_k"] == 10
    assert [(row["zone"], row["logger"]) for row in found["air"]] == [
        ("warm side", "grey"),
        ("cool side", None),
        ("warm side", "old"),
    ]
    shown = keeper.run("habitat", "day", "SHE", "--on", "2026-03-02").stdout
    assert "warm side (grey)" in shown and "warm side (old)" in shown
    with keeper.ask() as ask:
        told = ask.answers("zone temperature", About(1), ask.book.today)
        before = ask.answers("zone temperature", About(1), ask.book.today - timedelta(days=9))
    cool, warm = (t.estimate for t in told)  # the narrowest range first
    assert (warm.low, warm.high) == (22, 33) and 25 < (warm.value or 0) < 28
    assert "warm side by grey and old" in warm.basis.rule
    assert (cool.low, cool.high) == (20.5, 23) and before == []


def test_a_cool_side_that_is_too_hot_wants_acting_now(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path, warm=40, cool=38))
    (finding,) = keeper.json("today")["findings"]
    assert (finding["code"], finding["level"]) == ("habitat.hot", "act now")
    assert "cool side" in finding["words"] and "vet" in finding["words"]


def test_heat_that_failed(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path, warm=22))
    assert findings(keeper) == ["habitat.heat"]
    keeper.run("record", "cooling", "EMB", "--state", "begun")
    assert findings(keeper) == [], "in winter cooling the heat is off"


def test_what_failed_stays_until_a_reading_says_that_it_is_well(
    keeper: Keeper, tmp_path: Path
) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path, warm=22))
    keeper.pass_days(5)
    (told,) = keeper.json("today")["findings"]
    assert (told["code"], told["level"]) == ("habitat.heat", "look soon")
    assert "no reading since" in told["words"]
    warm = ("habitat.read", "SHE", "--zone", "warm side", "--air")
    keeper.run("record", *warm, "23C")
    assert findings(keeper) == ["habitat.heat"], "it is as cold as before"
    keeper.run("record", *warm, "29C")
    assert findings(keeper) == []
    keeper.run("undo"), keeper.run("record", "climate", "SHE", "--warm", "29C")
    assert findings(keeper) == []


def test_what_was_over_before_a_weekly_read_out_is_told_for_some_days(
    keeper: Keeper, tmp_path: Path
) -> None:
    file = logged(keeper, tmp_path)
    rows = [
        re.sub(r",23.0,", ",37,", row) if row.startswith("2026-03-02") else row
        for row in file.read_text("utf-8").splitlines()
    ]
    file.write_text("\n".join(rows), "utf-8")
    keeper.run("habitat", "read", "grey", file)
    (told,) = keeper.json("today")["findings"]
    assert (told["code"], told["level"]) == ("habitat.hot", "look soon")
    keeper.pass_days(3)
    assert findings(keeper) == []


def test_a_basking_lizard_in_good_air_is_left_in_peace(keeper: Keeper, tmp_path: Path) -> None:
    """31 degrees of air beside a stone of 35 to 42 (the figures of its species speak of that)."""
    keeper.run("enclosure", "add", "Sun", "--code", "SUN")
    keeper.run("animal", "add", "Sandy", "--species", "bearded dragon", "--enclosure", "SUN")
    probes = ("--probe", "T1=warm side", "--probe", "T2=cool side", "--probe", "RH=hide:humidity")
    keeper.run("habitat", "logger", "SUN", "blue", *probes)
    file = logged(keeper, tmp_path, warm=31, cool=24)
    keeper.run("habitat", "read", "blue", file)
    assert findings(keeper) == []
    rows = keeper.json("habitat", "zones", "SUN")["air"]
    assert [row["target_low_c"] for row in rows] == [None, 22]


def test_dry_air_is_told_of_while_one_is_opaque(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("plugin", "set", "habitat", "humidity_least", "65%", "--enclosure", "SHE")
    keeper.run("plugin", "set", "habitat", "humidity_most", "80%", "--enclosure", "SHE")
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path))
    assert findings(keeper) == [], "no shed is near"
    keeper.run("record", "shedding", "EMB=opaque")
    (told,) = keeper.json("today")["findings"]
    assert (told["code"], told["level"]) == ("habitat.dry", "look soon")
    assert "had 52" in told["words"] and "should have 65" in told["words"]
    keeper.run("plugin", "set", "habitat", "humidity_least", "55%", "--enclosure", "SHE")
    assert findings(keeper) == [], "a hygrometer may be off by so much"


def test_a_logger_that_stopped_and_one_that_nobody_reads(keeper: Keeper, tmp_path: Path) -> None:
    file = logged(keeper, tmp_path)
    keeper.pass_days(3)
    keeper.run("habitat", "read", "grey", file)
    assert findings(keeper) == ["habitat.silent"]
    keeper.pass_days(30)
    assert "habitat.unread" not in findings(keeper), "the round says it by its task"
    assert "read out the logger grey" in keeper.run("today").stdout
    with keeper.ask() as ask:
        assert "habitat.unread" in {f.code for f in ask.findings(ask.book.today)}


def test_its_tasks_are_settled_and_a_probe_keeps_its_offset(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path))
    keeper.pass_days(181)
    shown = keeper.run("today").stdout
    assert "read out the logger grey" in shown and "check the probe at warm side" in shown
    number = next(t["number"] for t in keeper.json("today")["tasks"] if "warm side" in t["what"])
    keeper.run("done", f"{number}=-0.5")
    assert keeper.json("habitat", "zones", "SHE", "--on", "2026-03-05")["air"][0]["high_c"] == 29.5


def test_a_probe_that_is_far_off_is_to_be_replaced(keeper: Keeper) -> None:
    keeper.pass_days(181)
    number = next(t["number"] for t in keeper.json("today")["tasks"] if "warm side" in t["what"])
    done = keeper.run("done", f"{number}=99", ok=False)
    assert done.code == 2 and "replace it" in done.stderr


def test_a_reading_by_hand_that_no_place_has_is_asked_about(keeper: Keeper) -> None:
    typed = ("record", "habitat.read", "SHE", "--zone", "stone")
    done = keeper.run(*typed, "--surface", "86C", ok=False)
    assert done.code == 4 and "86 °F would be 30 °C" in done.stderr
    assert keeper.run(*typed, ok=False).code == 2
    keeper.run(*typed, "--surface", "38C", "--uv-index", "4.5")


@pytest.mark.parametrize(
    "typed",
    [
        ("logger", "SHE", "grey", "--probe", "a=warm"),
        ("logger", "SHE", "blue", "--probe", "warm"),
        ("logger", "SHE", "blue", "--probe", "a=b", "--probe", "a=c"),
        ("read", "gray", "x.csv"),
        ("read", "grey", "nothing-there.csv"),
        ("zones", "SHE"),
        ("light", "--latitude", "95"),
        ("light", "--least", "15"),
    ],
)
def test_bad_input_is_one_line(keeper: Keeper, typed: tuple[str, ...]) -> None:
    done = keeper.run("habitat", *typed, ok=False)
    assert done.code in (2, 3, 4) and len(done.stderr.splitlines()) == 1


def test_day_as_a_chart(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("habitat", "read", "grey", logged(keeper, tmp_path))
    assert "warm side" in keeper.run("habitat", "day", "SHE").stdout
    report = keeper.run("report", "SHE").stdout
    assert "Zones as measured" in report and "Air on 2026-03-04" in report, "a whole day"


def test_clock_of_the_file(keeper: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "utc.csv"
    moment = datetime(2026, 3, 5, 6, 0)
    file.write_text(f"when,x\n{moment:%m/%d/%Y %I:%M %p},86\n", "utf-8")
    options = ("--probe", "x=warm side:air:F", "--time", "when", "--dates", "mdy", "--clock", "utc")
    keeper.run("habitat", "logger", "SHE", "blue", *options)
    keeper.run("habitat", "read", "blue", file)
    (blue,) = (r for r in keeper.json("habitat", "loggers")["loggers"] if r["logger"] == "blue")
    assert (blue["last"], blue["value"]) == ("2026-03-05 07:00", "30 °C")


def test_light_is_of_this_year_unless_another_is_named(keeper: Keeper) -> None:
    keeper.pass_days(366)
    assert keeper.json("habitat", "light")["weeks"][0]["week"] == "2027-01-01"
    assert keeper.json("habitat", "light", "--year", "2030")["weeks"][0]["week"] == "2030-01-01"
