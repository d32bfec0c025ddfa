"""The plugin in a collection, through the commands that a keeper types. All is invented."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.testing import Keeper, check_plugin, new_keeper


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper with an enclosure, the gecko that lives in it and a sensor, at 13:00 in Vienna."""
    keeper = new_keeper(tmp_path, plugins=["climatelog"])
    keeper.run("enclosure", "add", "Tall box", "--code", "TB", "--width", "60cm", "--depth", "45cm")
    keeper.run("animal", "add", "Drip", "--species", "crested gecko", "--enclosure", "TB")
    hung = ("Top", "--zone", "warm", "--left", "20cm", "--back", "15cm")
    keeper.run("climatelog", "add", "TB", *hung)
    return keeper


def log(keeper: Keeper, *rows: str, name: str = "log.csv", sensor: str = "Top") -> str:
    """Import rows of a file; returns what was said."""
    file = keeper.path.parent / name
    file.write_text("time,value\n" + "".join(f"{r}\n" for r in rows))
    return keeper.run("climatelog", "import", file, "--sensor", sensor).stdout


MORNING = tuple(f"2026-03-05 {h:02}:{m:02},{20 + h / 2}" for h in range(6, 13) for m in (0, 30))


def test_an_import_adds_only_what_is_new_and_is_one_step(keeper: Keeper) -> None:
    assert "Top: 6 new readings" in log(keeper, *MORNING[:6])
    assert "Top: 8 new readings, 6 were known already" in log(keeper, *MORNING)
    assert "Top: 0 new readings, 14 were known already" in log(keeper, *MORNING)
    said = [e["what"] for e in keeper.json("history", "TB")["events"]]
    assert said[-2:] == [
        "logger read out: Top, readings 6",
        "logger read out: Top, readings 8",
    ]
    assert days(keeper)[0]["readings"] == 14
    assert "read out Top: 8 readings" in keeper.run("undo").stdout
    assert days(keeper)[0]["readings"] == 6, "the kept days follow the undone step"
    keeper.run("redo")
    assert days(keeper)[0]["readings"] == 14


def days(keeper: Keeper) -> list[dict[str, float]]:
    found: list[dict[str, float]] = keeper.json("climatelog", "days", "Top")["readings"]
    return found


def test_days_have_their_extremes_with_the_offset_of_the_probe(keeper: Keeper) -> None:
    log(keeper, "2026-03-04 23:59,18", *MORNING)
    first, second = days(keeper)
    assert (first["day"], first["low_c"], first["high_c"]) == ("2026-03-04", 18, 18)
    assert (second["low_c"], second["high_c"], second["mean_c"]) == (23, 26, 24.5)


def test_the_last_hours_go_on_across_midnight_and_break_at_a_pause(keeper: Keeper) -> None:
    log(keeper, "2026-03-04 23:50,18", "2026-03-05 00:20,19", *MORNING)
    curve = keeper.json("climatelog", "recent", "Top", "--hours", "24")["recent"]
    assert curve["axis"] == "instants"
    values = curve["lines"][0]["y_c"]
    assert values[:3] == [18.0, 19.0, None] and values[-1] == 26.0
    assert "2026-03-04" in keeper.run("climatelog", "recent", "Top", "--hours", "24").stdout
    keeper.pass_days(2)
    assert "no reading" in keeper.run("climatelog", "recent", "Top", "--hours", "24").stdout


def test_the_readings_of_each_day_are_bars(keeper: Keeper) -> None:
    log(keeper, "2026-03-04 23:50,18", *MORNING)
    counted = keeper.json("climatelog", "days", "Top")["counted"]
    assert counted["bars"][0]["y"] == [1, 14]


def test_a_file_with_bad_rows_is_named_by_line_and_imports_nothing(keeper: Keeper) -> None:
    before = keeper.path.read_bytes()
    file = keeper.path.parent / "bad.csv"
    file.write_text("time,value\n2026-03-05 08:00,21\n2026-03-05 09:00,warm\n\nsoon,22\n")
    said = keeper.run("climatelog", "import", file, "--sensor", "Top", ok=False).complaint(2)
    assert "nothing was imported; line 3: 'warm' is no temperature; line 5: time 'soon'" in said
    assert keeper.path.read_bytes() == before


def test_a_place_that_is_too_warm_is_found_with_the_basis_of_its_limit(keeper: Keeper) -> None:
    """28 °C for the species is shipped as common practice, no source."""
    log(keeper, "2026-03-05 10:00,28.1", "2026-03-05 11:00,28.4")
    (found,) = keeper.json("today")["findings"]
    assert (found["code"], found["level"]) == ("climatelog.warm", "act now")
    assert "28.4 °C, above 28 °C, and still is too warm" in found["words"]
    assert "a vet who treats reptiles" in found["words"]
    assert "above 28 °C" in " ".join(keeper.run("report", "DRI").stdout.split())
    log(keeper, "2026-03-05 12:00,27")
    (found,) = keeper.json("today")["findings"]
    assert found["level"] == "look soon", "it has cooled since"
    keeper.run("plugin", "set", "climatelog", "most", "30C", "--enclosure", "TB")
    assert keeper.json("today")["findings"] == []


def test_a_silent_logger_is_found_until_it_is_read_out_or_stopped(keeper: Keeper) -> None:
    log(keeper, *MORNING)
    keeper.pass_days(2)
    (found,) = keeper.json("today")["findings"]
    assert found["code"] == "climatelog.silent"
    assert "silent for 48 hours" in found["words"] or "silent for 49 hours" in found["words"]
    keeper.run("climatelog", "stop", "Top")
    assert keeper.json("today")["findings"] == []
    keeper.run("undo")
    log(keeper, "2026-03-07 12:00,24")
    assert keeper.json("today")["findings"] == []


def test_checking_the_probe_settles_its_task_and_corrects_its_readings(keeper: Keeper) -> None:
    log(keeper, *MORNING)
    keeper.run("plugin", "set", "climatelog", "silent_hours", "8760")
    keeper.pass_days(180)
    (task,) = keeper.json("today")["tasks"]
    assert task["what"] == "check the probe Top"
    assert task["why"].startswith("every 180 days; checked never; hold it beside a thermometer")
    assert "0.5 °C is added to its readings" in keeper.run("done", "1=0.5C").stdout
    assert keeper.json("today")["tasks"] == []
    found = keeper.json("climatelog", "days", "Top", "--last", "300")["readings"]
    assert found[0]["high_c"] == 26.5
    keeper.run("undo")
    assert len(keeper.json("today")["tasks"]) == 1


def test_the_report_of_the_enclosure_shows_its_day_and_a_plan_to_scale(keeper: Keeper) -> None:
    log(keeper, *MORNING)
    shown = keeper.json("climatelog", "day", "TB")
    assert shown["most_c"] == 28
    assert shown["plan"]["scale"] == "1 : 4.0"
    (placed,) = shown["plan"]["sensors"]
    assert placed == {"sensor": "Top", "left_mm": 200, "back_mm": 150, "temperature_c": 26}
    said = keeper.run("report", "TB").stdout
    assert "Temperature on 2026-03-05" in said
    assert "Top 26 °C (warm): 20 cm from the left, 15 cm from the back" in said
    picture = keeper.path.parent / "day.svg"
    keeper.run("climatelog", "day", "TB", "--save", picture)
    assert "Top 26 °C" in picture.read_text()


def test_how_fast_it_changed_is_told_in_the_collections_degrees(keeper: Keeper) -> None:
    """NIST Special Publication 811 (2008), appendix B.8: a step of 1 °C is one of 1.8 °F."""
    log(keeper, *(f"2026-03-05 {c},{v}" for c, v in (("06:00", 22), ("07:00", 25), ("08:00", 24))))
    assert keeper.json("climatelog", "day", "TB")["fastest_k_per_h"] == pytest.approx(3)
    assert "3 °C/h" in keeper.run("climatelog", "day", "TB").stdout
    keeper.run("file", "change", "--units", "us trade")
    assert "5.4 °F/h" in keeper.run("climatelog", "day", "TB").stdout


def test_a_label_and_other_plugins_are_told(keeper: Keeper) -> None:
    from warmside.api import About

    log(keeper, *MORNING)
    with keeper.ask() as ask:
        place, today = About(enclosure_id=ask.book.enclosure("TB").id), ask.book.today
        (line,) = ask.label_lines(place, today)
        (answer,) = ask.answers("zone temperature", About(ask.book.animal("DRI").id), today)
    assert (line.key, line.text) == ("climatelog.most", "at most 28 °C at the logger")
    assert (answer.estimate.low, answer.estimate.value, answer.estimate.high) == (23, 24.5, 26)
    assert "mean of 14 readings of Top, warm" in answer.estimate.basis.rule


def test_the_file_check_names_what_is_out_of_time_or_hangs_nowhere(keeper: Keeper) -> None:
    log(keeper, *MORNING)
    checks = keeper.run("file", "check", "--json", ok=False).json["checks"]
    assert "climatelog" in " ".join(check["what"] for check in checks)
    with closing(sqlite3.connect(keeper.path)) as file, file:
        step = file.execute("SELECT max(step_id) FROM climatelog_reading").fetchone()[0]
        for at in (1, 4_000_000_000):
            file.execute("INSERT INTO climatelog_reading VALUES (1, ?, 20000, ?)", (at, step))
        file.execute("UPDATE climatelog_sensor SET enclosure_id = NULL")
    said = " ".join(keeper.run("file", "check", ok=False).stdout.split())
    for words in ("Top hangs in no enclosure", "1 readings are from before 1990", "after 2026"):
        assert words in said


def test_sensors_are_listed_with_their_last_reading(keeper: Keeper) -> None:
    log(keeper, *MORNING)
    (row,) = keeper.json("climatelog", "list")["sensors"]
    assert (row["sensor"], row["enclosure"], row["zone"]) == ("Top", "TB", "warm")
    assert (row["temperature_c"], row["at"]) == (26, "2026-03-05T11:30:00Z")


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("add", "NOWHERE", "x"), 3, "there is no enclosure 'NOWHERE'"),
        (("add", "TB", "top"), 4, "there is a sensor top already"),
        (("add", "TB", " "), 2, "has 1 to 80 letters"),
        (("add", "TB", "Low", "--left", "90cm"), 2, "is outside the enclosure"),
        (("add", "TB", "Low", "--offset", "40C"), 2, "none of a probe that can be used"),
        (("stop", "Tip"), 3, "did you mean 'Top'?"),
        (("recent", "Top", "--hours", "0"), 2, "--hours is 1 to 744"),
        (("days", "Top", "--last", "0"), 2, "--last is 1 to 3660 days"),
        (("day", "TB", "--on", "2020-01-01"), 3, "TB has no sensor on 2020-01-01"),
        (("import", "no.csv", "--sensor", "Top"), 2, "cannot read no.csv"),
        (("import", __file__, "--sensor", "Top"), 2, "has no column 'time'"),
    ],
)
def test_bad_input_is_one_line_and_changes_nothing(
    keeper: Keeper, words: tuple[str, ...], code: int, told: str
) -> None:
    before = keeper.path.read_bytes()
    assert told in keeper.run("climatelog", *words, ok=False).complaint(code)
    assert keeper.path.read_bytes() == before


def test_it_is_a_good_plugin(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_text("time,value\n" + "\n".join(MORNING))
    hang = ("climatelog", "add", "SHE", "Low", "--left", "10cm", "--back", "10cm")
    read_out = ("climatelog", "import", tmp_path / "log.csv", "--sensor", "Low")
    stop = ("climatelog", "stop", "Low")
    check_plugin("climatelog", tmp_path, typed=[hang, read_out, stop])
