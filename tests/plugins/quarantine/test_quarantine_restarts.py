"""What starts the clock again: newcomers in the air, positives, mites, the keeper."""

from __future__ import annotations

from warmside.testing import Keeper

GECKO = ("--species", "leopard gecko")


def arrive(keeper: Keeper, name: str, place: str, *more: str) -> None:
    keeper.run("arrive", name, *GECKO, "--enclosure", place, *more)


def shown(keeper: Keeper, animal: str = "PEB") -> dict:
    return keeper.json("quarantine", "show", animal)


def causes(keeper: Keeper, animal: str = "PEB") -> list[str]:
    return [r["cause"] for r in shown(keeper, animal)["restarts"]]


def test_a_newcomer_in_the_room_restarts_all_that_share_its_air(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Fern", "ATT")
    house.pass_days(20)
    arrive(house, "Sand", "BOX")
    assert (shown(house)["day"], causes(house)) == (0, ["newcomer_in_room"])
    assert "SAN" in shown(house)["restarts"][0]["words"]
    assert (shown(house, "SAN")["day"], causes(house, "SAN")) == (0, [])
    assert (shown(house, "FER")["day"], causes(house, "FER")) == (20, [])


def test_undoing_the_newcomer_takes_the_restart_back(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(20)
    arrive(house, "Sand", "BOX")
    house.run("undo")
    assert (shown(house)["day"], causes(house)) == (20, [])


def test_correcting_where_the_newcomer_went_takes_the_restart_back(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(20)
    number = house.json("arrive", "Sand", *GECKO, "--enclosure", "BOX")["recorded"][0]["event"]
    house.run("correct", number, "--subject", "ATT")
    assert (shown(house)["day"], causes(house)) == (20, [])


def test_two_that_came_together_do_not_restart_each_other(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "08:00")
    arrive(house, "Sand", "BOX", "--at", "11:00")
    assert causes(house) == causes(house, "SAN") == []


def test_a_resident_moved_into_the_room_is_a_newcomer_too(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(9)
    house.run("move", "EMB", "--to", "BOX")
    assert causes(house) == ["newcomer_in_room"]


def test_moving_within_the_room_is_nothing_new(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Sand", "BOX")
    house.pass_days(9)
    house.run("move", "PEB", "--to", "BOX")
    assert causes(house) == []


def test_a_protocol_may_switch_the_rule_off(house: Keeper) -> None:
    house.run("quarantine", "protocol", "edit", "general", "restarts.newcomer_in_room=no")
    arrive(house, "Pebble", "TUB")
    house.pass_days(9)
    arrive(house, "Sand", "BOX")
    assert causes(house) == []


def looks_for_mites(keeper: Keeper) -> list[dict]:
    tasks = keeper.json("today")["tasks"]
    return [t for t in tasks if t["what"].startswith("look for mites again")]


def test_a_sighted_mite_restarts_and_asks_to_look_again_over_its_cycle(house: Keeper) -> None:
    """First adults after 13 days, longest life 40: Camin 1953, as summarised by a breeder."""
    arrive(house, "Pebble", "TUB")
    house.pass_days(10)
    told = house.json("quarantine", "check", "PEB", "mites", "--found", "--what", "on the chin")
    assert any("2026-03-28" in n["text"] and "2026-04-24" in n["text"] for n in told["notes"])
    assert (shown(house)["day"], causes(house)) == (0, ["mite_sighted"])
    house.run("quarantine", "check", "PEB", "breathing")
    house.pass_days(13)
    (again,) = looks_for_mites(house)
    assert (again["what"], again["due"]) == ("look for mites again, 1 of 10", "2026-03-28")
    house.run("done", str(again["number"]))
    assert looks_for_mites(house) == []


def test_each_look_for_mites_is_asked_for_on_its_day_though_one_was_missed(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.run("quarantine", "check", "PEB", "mites", "--found")
    house.pass_days(13)
    days = []
    for _ in range(3):
        days += [(t["what"].split(", ")[1], t["due"]) for t in looks_for_mites(house)]
        house.pass_days(3)
    assert days == [
        ("1 of 10", "2026-03-18"),
        ("2 of 10", "2026-03-21"),
        ("3 of 10", "2026-03-24"),
    ]
    house.run("quarantine", "check", "PEB", "mites")
    assert looks_for_mites(house) == []


def test_a_restart_by_a_newcomer_is_said_for_a_week(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(40)
    arrive(house, "Sand", "BOX")
    said = [f for f in house.json("today")["findings"] if f["code"] == "quarantine.restarted"]
    assert [f["subject"] for f in said] == ["Pebble (PEB)"]
    assert "SAN came to share the air; earliest end now 2026-07-13" in said[0]["words"]
    house.pass_days(7)
    assert "quarantine.restarted" not in [f["code"] for f in house.json("today")["findings"]]


def test_correcting_the_sighting_takes_the_restart_back(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(10)
    told = house.json("quarantine", "check", "PEB", "mites", "--found")
    house.run("correct", told["recorded"][0]["event"], "found=no")
    assert (shown(house)["day"], causes(house)) == (10, [])


def test_a_positive_result_restarts_from_its_day(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(3)
    house.run("quarantine", "sample", "PEB", "faecal", "--method", "flotation")
    house.pass_days(4)
    told = house.json("quarantine", "result", "PEB", "positive")
    assert any("vet" in n["text"] for n in told["notes"])
    assert (shown(house)["clock_start"], causes(house)) == ("2026-03-12", ["positive_test"])


def test_the_keeper_restarts_and_says_why(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(3)
    house.run("quarantine", "restart", "PEB", "--because", "bowls were mixed up")
    restart = shown(house)["restarts"][0]
    assert (restart["cause"], restart["words"]) == ("keeper", "bowls were mixed up")
