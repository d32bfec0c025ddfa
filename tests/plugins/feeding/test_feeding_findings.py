"""Findings of the feeding plugin in the round."""

from __future__ import annotations

from typing import Any

from warmside.testing import Keeper


def findings(keeper: Keeper, code: str) -> list[Any]:
    found = keeper.json("today")["findings"]
    return [f for f in found if f["code"] == f"feeding.{code}"]


def fed(
    keeper: Keeper, at: str, outcome: str = "taken", item: str = "small rat", who: str = "EMB"
) -> None:
    keeper.run("record", "fed", who, "--item", item, "--outcome", outcome, "--at", at)


def test_a_missing_weight_is_a_note(room: Keeper) -> None:
    (found,) = findings(room, "unweighed")
    assert found["subject"] == "Moss (MOS)" and found["level"] == "note"


def test_one_refusal_is_no_finding_and_a_winter_fast_of_a_ball_python_is_none(
    room: Keeper,
) -> None:
    fed(room, "2025-11-20")
    fed(room, "2025-12-19", "refused")
    assert findings(room, "refusing") == []
    for day in ("2026-01-05", "2026-01-20", "2026-02-19"):
        fed(room, day, "refused")
    assert findings(room, "refusing") == [], "105 days, in its season, weighed a fortnight ago"


def test_a_fast_says_what_loss_it_explains(room: Keeper) -> None:
    fed(room, "2025-11-20")
    room.run("record", "weighed", "EMB=1280g", "--at", "2025-12-01")
    fed(room, "2025-12-19", "refused")
    told = " ".join(room.run("feeding", "plan", "EMB").stdout.split())
    assert "expected loss in 81 days without food 41 to 79 g, seen 40 g" in told
    assert "such a fast costs: 41–79 g" in told and "30 to 42 kJ/g from memory" in told


def test_refusals_with_a_tenth_of_the_mass_lost_go_to_a_vet(room: Keeper) -> None:
    fed(room, "2026-01-05")
    for day in ("2026-01-20", "2026-02-01", "2026-02-15"):
        fed(room, day, "refused")
    room.run("record", "weighed", "EMB=1100g", "--at", "2026-03-04")
    (found,) = findings(room, "refusing")
    assert found["level"] == "act now" and "see a vet" in found["words"]
    assert "lost 11 % of its mass" in found["words"] and found["mark"] == "secondary"


def test_a_long_fast_is_looked_at_soon(room: Keeper) -> None:
    fed(room, "2025-07-01")
    fed(room, "2026-02-25", "refused")
    assert findings(room, "refusing")[0]["level"] == "look soon"


def test_a_second_regurgitation_goes_to_a_vet_before_the_next_meal(room: Keeper) -> None:
    fed(room, "2026-01-10")
    fed(room, "2026-01-12", "regurgitated")
    assert findings(room, "regurgitated") == []
    fed(room, "2026-02-20", "regurgitated")
    (found,) = findings(room, "regurgitated")
    assert found["level"] == "act now" and "see a vet" in found["words"]
    assert all(t["animal"] != "EMB" for t in room.json("today")["tasks"])


def weighed_mice(room: Keeper) -> None:
    """A mouse every three weeks for a python of 1240 g, each weighed, and readings of warmth."""
    for day in ("2025-12-20", "2026-01-10", "2026-01-31", "2026-02-21"):
        words = ("--item", "adult mouse", "--mass", "25g", "--at", day)
        room.run("record", "fed", "EMB", *words)
    room.run("record", "climate", "EMB", "--warm", "31C", "--cool", "26C", "--at", "2026-02-20")


def test_an_animal_that_loses_on_less_than_it_burns_is_found(room: Keeper) -> None:
    weighed_mice(room)
    assert findings(room, "underfed") == [], "its weight is not known to fall"
    room.run("record", "weighed", "EMB=1330g", "--at", "2026-01-12")
    (found,) = findings(room, "underfed")
    assert found["level"] == "look soon" and "less than it burns" in found["words"]
    assert "see a vet before changing the diet" in found["words"]


def test_where_another_plugin_judges_the_loss_what_it_eats_is_a_note(room: Keeper) -> None:
    weighed_mice(room)
    room.run("record", "weighed", "EMB=1330g", "--at", "2026-01-12")
    room.run("plugin", "enable", "weight")
    (found,) = findings(room, "underfed")
    assert found["level"] == "note"


def test_one_meal_on_record_is_no_balance(room: Keeper) -> None:
    fed(room, "2026-01-20", item="adult mouse")
    assert findings(room, "underfed") == []
    told = room.run("feeding", "balance", "EMB").stdout
    assert "not told: the range is too wide" in told
    assert "to tell the energy balance it lacks" in told


def test_meals_of_no_known_class_leave_the_balance_open(room: Keeper) -> None:
    for day in ("2025-12-20", "2026-01-20"):
        fed(room, day, item="adult mouse")
    room.run("feeding", "word", "set", "something from the market", "none")
    fed(room, "2026-02-20", item="something from the market")
    assert findings(room, "underfed") == []


def test_an_animal_that_came_within_those_weeks_is_not_judged(room: Keeper) -> None:
    room.run("arrive", "Otter", "--species", "ball python", "--at", "2026-02-10")
    room.run("record", "weighed", "OTT=1200g", "--at", "2026-02-10")
    fed(room, "2026-02-20", item="adult mouse", who="OTT")
    assert findings(room, "underfed") == []


def test_an_adult_that_long_eats_twice_its_need_and_gains_is_found(room: Keeper) -> None:
    for week in range(14):
        words = ("--item", "medium rat", "--mass", "120g", "--at", f"{100 - 7 * week} days ago")
        room.run("record", "fed", "EMB", *words)
    room.run("record", "climate", "EMB", "--warm", "31C", "--cool", "26C", "--at", "2026-02-20")
    assert findings(room, "surplus") == [], "it is not known to gain"
    room.run("record", "weighed", "EMB=1100g", "--at", "2025-12-20")
    (found,) = findings(room, "surplus")
    assert found["level"] == "note" and "more than an adult needs" in found["words"]
    room.run("record", "weighed", "EMB=1250g", "--at", "2026-03-04")
    assert findings(room, "surplus") == [], "it was said of the weighing before"
    room.run("undo")
    room.pass_days(2)
    assert findings(room, "surplus") == [], "it was said for two weeks"
    room.pass_days(-2)
    room.run("record", "weighed", "EMB=1300g", "--at", "2025-08-20", "--confirm")
    assert findings(room, "surplus") == [], "it only regains what it weighed before"


def test_eggs_are_no_cost_of_a_fast(room: Keeper) -> None:
    """She lost a clutch, not what the fast costs: only weighings since laying tell that."""
    fed(room, "2026-01-20", item="adult mouse")
    for day in ("2026-02-05", "2026-02-15", "2026-03-01"):
        fed(room, day, item="adult mouse", outcome="refused")
    room.run("record", "weighed", "EMB=1300g", "--at", "2026-01-28")
    assert "more than such a fast costs" in findings(room, "refusing")[0]["words"]
    room.run("record", "laid", "EMB", "--count", "7", "--at", "2026-02-10")
    assert all("fast costs" not in f["words"] for f in findings(room, "refusing"))


def test_a_shortage_is_found_only_where_there_is_a_stock(room: Keeper) -> None:
    assert findings(room, "short") == []
    room.run("feeding", "stock", "add", "adult mouse", "1")
    short = findings(room, "short")
    assert any("0 × small rat in stock" in f["words"] for f in short)
    assert all("cricket" not in f["words"] for f in short)
    room.run("feeding", "stock", "add", "small rat", "5")
    assert all("small rat" not in f["words"] for f in findings(room, "short"))


def test_old_prey_is_found_but_insects_are_not_frozen(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "small rat", "5", "--frozen", "2025-06-01")
    room.run("feeding", "stock", "add", "adult cricket", "50", "--frozen", "2025-06-01")
    (found,) = findings(room, "old")
    assert "5 × small rat frozen since 2025-06-01" in found["words"]
