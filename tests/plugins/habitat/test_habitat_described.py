"""An enclosure described, shown as of a day, taken back, and what it lacks."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.plugins.habitat.described.presets import preset_text
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def all_of_room(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `room` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("room"), plugins=["habitat", "shed"])
    keeper.run("enclosure", "add", "Shelf", "--code", "SHE")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


@pytest.fixture
def room(all_of_room: Keeper, tmp_path: Path) -> Keeper:
    """Ember, a ball python, in an enclosure that nobody has described (invented)."""
    return copy_of(all_of_room, tmp_path)


def file(folder: Path, *changes: tuple[str, str]) -> Path:
    text = preset_text("snake").replace("# SAY ", "")
    warm = 'name = "warm side"'
    text = text.replace(warm, warm + '\nair = ["30C", "32C"]', 1)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    path = folder / f"set_up_{len(list(folder.iterdir()))}.toml"
    path.write_text(text, encoding="utf-8")
    return path


def habitat_codes(keeper: Keeper) -> set[str]:
    with keeper.ask() as ask:
        return {f.code for f in ask.findings(ask.book.today) if f.code.startswith("habitat.")}


def test_a_set_up_is_shown_as_it_was_on_a_day_and_taken_back(room: Keeper, tmp_path: Path) -> None:
    first, second = file(tmp_path), file(tmp_path, ("watts = 80", "watts = 120"))
    room.run("habitat", "describe", "SHE", first, "--on", "2026-02-01")
    room.run("habitat", "describe", "SHE", second)
    assert "120 W" in room.run("habitat", "show", "SHE").stdout
    assert "80 W" in room.run("habitat", "show", "SHE", "--on", "2026-02-03").stdout
    assert room.run("habitat", "show", "SHE", "--on", "2026-01-03", ok=False).code == 3
    room.run("undo")
    assert "80 W" in room.run("habitat", "show", "SHE").stdout


def test_what_is_exported_is_what_was_given_and_nothing_is_overwritten(
    room: Keeper, tmp_path: Path
) -> None:
    given, out = file(tmp_path), tmp_path / "out.toml"
    room.run("habitat", "describe", "SHE", given)
    room.run("habitat", "export", "SHE", out)
    assert out.read_text("utf-8") == given.read_text("utf-8")
    again = room.run("habitat", "export", "SHE", out, ok=False)
    assert (again.code, "name a new file" in again.stderr) == (2, True)


def test_a_wrong_file_changes_nothing(room: Keeper, tmp_path: Path) -> None:
    room.run("habitat", "describe", "SHE", file(tmp_path))
    wrong = file(tmp_path, ('wall = "wood"', 'wall = "straw"'))
    told = room.run("habitat", "describe", "SHE", wrong, ok=False)
    assert (told.code, "line 11" in told.stderr) == (2, True)
    assert "wood" in room.run("habitat", "show", "SHE").stdout


def test_an_enclosure_that_nobody_described_is_never_nagged_about(room: Keeper) -> None:
    assert habitat_codes(room) == set()


def test_what_lacks_is_told_only_where_an_animal_lives(room: Keeper, tmp_path: Path) -> None:
    bad = file(tmp_path, ("thermostat = true", "thermostat = false"))
    room.run("enclosure", "add", "Empty", "--code", "EMP")
    room.run("habitat", "describe", "EMP", bad)
    assert habitat_codes(room) == set()
    room.run("habitat", "describe", "SHE", bad)
    assert habitat_codes(room) == {"habitat.thermostat"}
    room.run("habitat", "describe", "SHE", file(tmp_path))
    assert habitat_codes(room) == set()


def test_the_sheet_says_each_reason_and_warns(room: Keeper, tmp_path: Path) -> None:
    room.run("habitat", "describe", "SHE", file(tmp_path))
    told = room.json("habitat", "show", "SHE")
    assert all(thing["why"] for thing in told["things"])
    words = " ".join(note["text"] for note in told["notes"])
    assert "3 hiding places: 1 in the warmest zone, 1 in the coolest; 1 humid, 0 raised" in words
    assert "thermostat" in room.run("habitat", "show", "SHE").stdout
    room.run("plugin", "set", "habitat", "lights_on", "9", "--enclosure", "SHE")
    (light,) = room.json("habitat", "show", "SHE")["lights"]
    assert (light["on"], light["off"]) == ("09:00", "21:00"), "the schedule of its timer"
    paper = tmp_path / "sheet.svg"
    room.run("habitat", "show", "SHE", "--save", paper)
    assert "from the front" in paper.read_text("utf-8")


def test_the_sheet_shows_what_was_read_of_late_by_hand_and_by_loggers(
    room: Keeper, tmp_path: Path
) -> None:
    room.run("habitat", "describe", "SHE", file(tmp_path))
    before = room.json("habitat", "show", "SHE")["zones"]
    assert [z["measured"] for z in before] == [None] * 3
    log = tmp_path / "log.csv"
    log.write_text("time,T\n2026-03-04 09:00,29\n2026-03-05 10:00,31\n", "utf-8")
    room.run("habitat", "logger", "SHE", "grey", "--probe", "T=Warm side")
    room.run("habitat", "read", "grey", log)
    room.run("record", "habitat.read", "SHE", "--zone", "cool side", "--air", "24C")
    old = ("--zone", "middle", "--air", "40C", "--at", "2026-01-01")
    room.run("record", "habitat.read", "SHE", *old)
    room.run("record", "habitat.read", "SHE", "--zone", "humid hide", "--humidity", "90%")
    told = room.json("habitat", "show", "SHE")["zones"]
    found = {z["zone"]: (z["measured_low_c"], z["measured_high_c"], z["read"]) for z in told}
    assert found["warm side"] == (29, 31, "2026-03-05")
    assert found["cool side"] == (24, 24, "2026-03-05")
    assert found["middle"] == (None, None, None), "an old reading says nothing of now"
    assert told[-1]["zone"] == "humid hide" and told[-1]["measured_humidity_low_percent"] == 90
    paper = tmp_path / "read.svg"
    room.run("habitat", "show", "SHE", "--save", paper)
    assert "31 °C" in paper.read_text("utf-8")


def test_a_label_tells_the_targets_and_the_report_the_set_up(room: Keeper, tmp_path: Path) -> None:
    room.run("habitat", "describe", "SHE", file(tmp_path))
    with room.ask() as ask:
        from warmside.api import About

        about = About(enclosure_id=ask.book.enclosure("SHE").id)
        lines = [x.text for x in ask.label_lines(about, ask.book.today) if "habitat" in x.key]
        titles = [s.title for s in ask.sections(about, ask.book.today)]
    assert lines == ["warm side 30–32 °C"]
    assert "Set-up" in titles


def test_heat_needs_a_target_and_gives_ranges(room: Keeper, tmp_path: Path) -> None:
    room.run("habitat", "describe", "SHE", file(tmp_path))
    told = room.json("habitat", "heat", "SHE", "--room", "20C", "--limit", "22C")
    assert told["needed_low_w"] < told["needed_high_w"]
    assert told["cut_low_hours"] < told["cut_high_hours"]
    by_zone = {row["zone"]: row["low_hours"] for row in told["cut"]}
    assert by_zone["warm side"] == told["cut_low_hours"] > by_zone["middle"]
    wrong = room.run("habitat", "heat", "SHE", "--room", "86C", ok=False)
    assert (wrong.code, "Fahrenheit" in wrong.stderr) == (2, True)
    meter = ("record", "habitat.metered", "SHE", "--used", "0.9kWh")
    assert "--over 24h" in room.run(*meter, ok=False).complaint(2)
    cold = (*meter, "--over", "24h", "--outside", "20C", "--inside", "19C")
    assert "no warmer than the room" in room.run(*cold, ok=False).complaint(2)
    room.run(*meter, "--over", "24h", "--outside", "20C", "--inside", "27C")
    here = room.json("habitat", "heat", "SHE", "--room", "20C", "--hold", "34C")
    assert here["metered_w"] == pytest.approx(37.5) and here["metered_here_w"] == pytest.approx(75)
    room.run("enclosure", "add", "Empty", "--code", "EMP")
    bare = file(tmp_path, ('\nair = ["30C", "32C"]', ""))
    room.run("habitat", "describe", "EMP", bare)
    asked = room.run("habitat", "heat", "EMP", "--room", "20C", ok=False)
    assert (asked.code, "--hold" in asked.stderr) == (2, True)


def test_a_logger_is_held_against_the_targets_of_the_description(
    room: Keeper, tmp_path: Path
) -> None:
    room.run("habitat", "logger", "SHE", "grey", "--probe", "T=Warm side")
    log = tmp_path / "log.csv"
    log.write_text("time,T\n2026-03-05 09:00,31\n2026-03-05 10:00,31\n", "utf-8")
    room.run("habitat", "read", "grey", log)
    before = room.json("habitat", "zones", "SHE")["air"][0]
    room.run("habitat", "describe", "SHE", file(tmp_path))
    now = room.json("habitat", "zones", "SHE")["air"][0]
    assert (now["target_low_c"], now["target_high_c"]) == (30, 32)
    assert (before["target_low_c"], before["target_high_c"]) != (30, 32)
    assert (before["target_by"], now["target_by"]) == (
        "figures of the species",
        "as described",
    )


def air_target(keeper: Keeper) -> tuple[float, float, str]:
    """The target of the warm side as findings, tables and labels have it."""
    from warmside.plugins.habitat.gradient.targets import target
    from warmside.plugins.habitat.logs.probes import Measure
    from warmside.plugins.habitat.reading.wanted import wanted

    with keeper.ask() as ask:
        found = wanted(ask, ask.book.enclosure("SHE").id, ask.book.today)
    goal = target("warm side", Measure.AIR, found)
    assert goal and goal.day and found.warm == goal.day
    return (*goal.day, goal.by)


def test_the_narrowest_says_what_a_zone_should_keep(room: Keeper, tmp_path: Path) -> None:
    """Species, then the enclosure, then the zone as described, then the animal itself."""
    assert air_target(room)[2] == "figures of the species"
    for end, value in (("least", "29C"), ("most", "33C")):
        room.run("plugin", "set", "habitat", f"warm_{end}", value, "--enclosure", "SHE")
    assert air_target(room) == (29, 33, "set for the enclosure")
    room.run("habitat", "describe", "SHE", file(tmp_path))
    assert air_target(room) == (30, 32, "as described")
    room.run("plugin", "set", "habitat", "warm_most", "31C", "--animal", "EMB")
    assert air_target(room) == (30, 31, "as described, set for EMB")


def test_heat_that_failed_is_judged_by_the_described_zone_whatever_its_name(
    room: Keeper, tmp_path: Path
) -> None:
    """24 degrees all day: the species' least would be well under, a described 25 is not."""
    log = tmp_path / "log.csv"
    rows = [f"2026-03-04 {h:02d}:{m:02d},24" for h in range(8, 22) for m in (0, 15, 30, 45)]
    log.write_text("time,T\n" + "\n".join(rows), "utf-8")
    room.run("habitat", "logger", "SHE", "grey", "--probe", "T=ledge")
    room.run("habitat", "read", "grey", log)
    assert "habitat.heat" not in habitat_codes(room), "nobody said that the ledge is the warm side"
    ledge = ('"warm side"', '"ledge"')
    room.run("habitat", "describe", "SHE", file(tmp_path, ledge))
    assert "habitat.heat" in habitat_codes(room)
    mild = ('air = ["30C", "32C"]', 'air = ["25C", "27C"]')
    room.run("habitat", "describe", "SHE", file(tmp_path, mild, ledge))
    assert "habitat.heat" not in habitat_codes(room)
