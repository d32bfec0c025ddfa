"""A quarantine begins by itself with an arrival or a return, and follows its corrections."""

from __future__ import annotations

import pytest

from warmside.testing import Keeper

GECKO = ("--species", "leopard gecko")


def arrive(keeper: Keeper, name: str = "Pebble", place: str = "TUB", *more: str):
    return keeper.json("arrive", name, *GECKO, "--enclosure", place, *more)


def shown(keeper: Keeper, animal: str = "PEB") -> dict:
    return keeper.json("quarantine", "show", animal)


def test_an_arrival_begins_a_quarantine_in_the_same_step(house: Keeper) -> None:
    kinds = [r["what"] for r in arrive(house)["recorded"]]
    assert kinds[0].startswith("arrived")
    assert kinds[1] == "quarantine begun: general, new arrival"
    state = shown(house)
    assert (state["day"], state["days"], state["earliest_end"]) == (0, 90, "2026-06-03")
    house.run("undo")
    assert house.run("quarantine", "show", "PEB", ok=False).code == 3


def test_the_days_are_counted_from_the_record_and_never_stored(house: Keeper) -> None:
    arrive(house)
    house.pass_days(12)
    state = shown(house)
    assert (state["day"], state["days_left"]) == (12, 78)
    assert house.json("quarantine", "show", "PEB", "--on", "2026-03-10")["day"] == 5


def test_an_animal_that_was_here_already_begins_none(house: Keeper) -> None:
    assert house.json("quarantine", "show")["quarantines"] == []
    assert not shown(house, "EMB")["in_quarantine"]


@pytest.mark.parametrize("after", ["loan", "show", "boarding"])
def test_a_return_begins_one_and_names_its_cause(house: Keeper, after: str) -> None:
    house.run("lend", "EMB", "--to", "a friend", "--at", "2026-02-01")
    house.run("return", "EMB", "--after", after, "--enclosure", "TUB")
    assert shown(house, "EMB")["cause"] == f"return from a {after}"


def test_an_animal_bred_here_is_no_newcomer(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--how", "bred here")
    assert not shown(house)["in_quarantine"]
    codes = [f["code"] for f in house.json("today")["findings"]]
    assert "quarantine.newcomer" not in codes


def test_an_arrival_of_years_ago_begins_none_now(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2023-05-01")
    assert not shown(house)["in_quarantine"]


def test_an_arrival_some_weeks_ago_counts_from_its_own_day(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-02-01")
    assert shown(house)["day"] == 32


def test_correcting_the_arrival_moves_the_quarantine(house: Keeper) -> None:
    number = arrive(house)["recorded"][0]["event"]
    house.run("correct", number, "--at", "2026-03-01")
    state = shown(house)
    assert (state["started"], state["day"]) == ("2026-03-01", 4)
    assert state["restarts"] == []
    house.run("undo")
    assert shown(house)["day"] == 0


def test_correcting_the_arrival_twice_still_moves_it(house: Keeper) -> None:
    first = arrive(house)["recorded"][0]["event"]
    second = house.json("correct", first, "--at", "2026-03-01")["recorded"][0]["event"]
    house.run("correct", second, "--at", "2026-03-03")
    assert shown(house)["day"] == 2


def test_an_arrival_corrected_to_another_animal_takes_the_quarantine_along(house: Keeper) -> None:
    number = arrive(house)["recorded"][0]["event"]
    house.run("animal", "add", "Sand", *GECKO, "--ancestor")
    house.run("correct", number, "--subject", "SAN")
    assert not shown(house)["in_quarantine"]
    assert shown(house, "SAN")["day"] == 0


def test_an_animal_that_left_and_came_again_starts_again(house: Keeper) -> None:
    arrive(house)
    house.pass_days(10)
    house.run("depart", "PEB", "--how", "sold")
    assert house.json("quarantine", "show")["quarantines"] == []
    house.pass_days(10)
    house.run("arrive", "PEB", "--enclosure", "TUB")
    state = shown(house)
    assert state["day"] == 0
    assert [r["cause"] for r in state["restarts"]] == ["started_again"]


def test_a_return_within_a_quarantine_starts_its_clock_again(house: Keeper) -> None:
    arrive(house)
    house.pass_days(10)
    house.run("lend", "PEB", "--to", "a friend")
    house.pass_days(10)
    house.run("return", "PEB", "--enclosure", "TUB")
    state = shown(house)
    assert (state["day"], [r["cause"] for r in state["restarts"]]) == (0, ["return"])


def test_the_keeper_begins_one_by_command(house: Keeper) -> None:
    said = house.json("quarantine", "start", "EMB", "--protocol", "short", "--because", "cough")
    assert said["recorded"][0]["what"].startswith("quarantine begun: short, cough")
    assert any("floor set for zoos" in n["text"] for n in said["notes"])
    assert shown(house, "EMB")["days"] == 30


def test_one_in_quarantine_is_not_begun_again(house: Keeper) -> None:
    arrive(house)
    refused = house.run("quarantine", "start", "PEB", ok=False)
    assert refused.code == 4
    assert "quarantine restart PEB" in refused.stderr


def test_one_that_is_not_here_cannot_begin(house: Keeper) -> None:
    house.run("lend", "EMB", "--to", "a friend")
    assert house.run("quarantine", "start", "EMB", ok=False).code == 4


def test_own_values_of_an_animal_hold_from_the_start(house: Keeper) -> None:
    house.run(
        "quarantine", "start", "EMB", "--set", "days=120", "--set", "tests.faecal.negatives=1"
    )
    state = shown(house, "EMB")
    assert state["days"] == 120
    assert [t["wanted"] for t in state["tests"]] == [1]


def test_the_usual_protocol_and_its_days_are_settings(house: Keeper) -> None:
    house.run("plugin", "set", "quarantine", "days", "60")
    arrive(house)
    assert shown(house)["days"] == 60
    house.run("plugin", "set", "quarantine", "protocol", "short")
    arrive(house, "Sand", "ATT")
    assert shown(house, "SAN")["days"] == 30


def test_a_setting_that_names_no_protocol_is_said_and_nothing_is_written(house: Keeper) -> None:
    house.run("plugin", "set", "quarantine", "protocol", "genral")
    refused = house.run("arrive", "Pebble", *GECKO, ok=False)
    assert refused.code == 3
    assert "did you mean 'general'" in refused.stderr
    assert house.run("animal", "show", "PEB", ok=False).code == 3


def test_another_protocol_holds_from_the_first_day(house: Keeper) -> None:
    arrive(house)
    house.pass_days(5)
    house.run("quarantine", "edit", "PEB", "--protocol", "long")
    state = shown(house)
    assert (state["protocol"], state["day"], state["days"]) == ("long", 5, 180)
    assert state["restarts"] == []
    house.run("undo")
    assert shown(house)["protocol"] == "general"


def test_an_edit_changes_one_animal_alone(house: Keeper) -> None:
    arrive(house)
    arrive(house, "Sand", "ATT")
    house.run("quarantine", "edit", "PEB", "--set", "days=100")
    assert (shown(house)["days"], shown(house, "SAN")["days"]) == (100, 90)


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        (("edit", "PEB", "--set", "days=-5"), 2),
        (("edit", "PEB", "--set", "days"), 2),
        (("edit", "PEB", "--set", "dys=100"), 2),
        (("edit", "PEB"), 2),
        (("edit", "PEB", "--protocol", "lng"), 3),
        (("edit", "EMB", "--set", "days=100"), 4),
        (("start", "EMB", "--protocol", "lng"), 3),
        (("start", "EMB", "--set", "tests.faecal.negatives=99"), 2),
        (("start", "NOBODY"), 3),
        (("restart", "PEB"), 2),
        (("restart", "EMB", "--because", "x"), 4),
    ],
)
def test_bad_input_is_one_line_and_writes_nothing(
    house: Keeper, typed: tuple[str, ...], code: int
) -> None:
    arrive(house)
    before = house.run("history").stdout
    refused = house.run("quarantine", *typed, ok=False)
    assert refused.code == code
    assert len(refused.stderr.strip().splitlines()) == 1
    assert house.run("history").stdout == before


def test_impossible_records_are_refused_however_they_come(house: Keeper) -> None:
    """The generic record command goes past the plugin's commands, not past its rules."""
    arrive(house)
    for typed, code in (
        (("quarantine.started", "EMB", "--protocol", "nonsense"), 3),
        (
            (
                "quarantine.sampled",
                "EMB=faecal",
            ),
            4,
        ),
        (("quarantine.checked", "PEB=nonsense"), 3),
        (("quarantine.checked", "PEB=weight"), 2),
        (("quarantine.resulted", "PEB=negative", "--sample", "1"), 3),
        (("quarantine.released", "PEB"), 4),
        (("quarantine.edited", "PEB=days=0"), 2),
        (("quarantine.restarted", "EMB=why"), 4),
    ):
        refused = house.run("record", *typed, ok=False)
        assert refused.code == code, (typed, refused.stderr)
        assert "Traceback" not in refused.stderr


def test_a_newcomer_before_the_plugin_was_enabled_is_found(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Tub", "--room", "Spare")
    keeper.run("arrive", "Pebble", *GECKO, "--enclosure", "TUB", "--at", "2026-03-01")
    keeper.run("plugin", "enable", "quarantine")
    found = [f for f in keeper.json("today")["findings"] if f["code"] == "quarantine.newcomer"]
    assert len(found) == 1
    assert "warmside quarantine start PEB --at 2026-03-01" in found[0]["words"]
    keeper.run("quarantine", "start", "PEB", "--at", "2026-03-01")
    assert shown(keeper)["day"] == 4
    codes = [f["code"] for f in keeper.json("today")["findings"]]
    assert "quarantine.newcomer" not in codes


@pytest.mark.parametrize(("protocol", "days"), [("general", 90), ("short", 30)])
def test_a_newcomer_is_found_for_the_days_of_the_usual_protocol(
    keeper: Keeper, protocol: str, days: int
) -> None:
    keeper.run("arrive", "Pebble", *GECKO)
    keeper.run("plugin", "enable", "quarantine")
    keeper.run("plugin", "set", "quarantine", "protocol", protocol)

    def found() -> bool:
        codes = [f["code"] for f in keeper.json("today")["findings"]]
        return "quarantine.newcomer" in codes

    keeper.pass_days(days - 1)
    assert found()
    keeper.pass_days(1)
    assert not found()


def test_a_species_may_have_a_usual_protocol_of_its_own(house: Keeper) -> None:
    long = ("plugin", "set", "quarantine", "protocol", "long")
    house.run(*long, "--species", "common boa", "--note", "our vet")
    house.run("arrive", "Coil", "--species", "common boa", "--enclosure", "ATT")
    arrive(house)
    assert shown(house, "COI")["protocol"] == "long"
    assert shown(house)["protocol"] == "general"
    house.run("quarantine", "start", "EMB", "MOS", "EMB")
    assert shown(house, "EMB")["protocol"] == "general"
    assert shown(house, "EMB")["restarts"] == []
