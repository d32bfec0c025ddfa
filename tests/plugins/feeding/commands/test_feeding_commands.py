"""Plan, balance, energy, species, order, packs and own feeding, as a keeper runs them."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from warmside.core.plugins.manifest import Answers
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin


def test_the_plan_of_one_animal(room: Keeper) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-28")
    found = room.json("feeding", "plan", "EMB")
    assert (found["due_from"], found["due_by"], found["due"]) == ("2026-03-14", "2026-03-28", False)
    assert (found["interval_low_days"], found["interval_high_days"]) == (14, 28)
    assert 40 < found["meal_low_g"] < found["meal_high_g"] < 100
    assert found["stage"] == "adult" and found["mass_age_days"] == 13 and not found["mass_stale"]
    assert found["fits"][0]["prey"] == "rat-small" and found["fits"][0]["width_high_mm"] > 0
    cautions = " ".join(n["text"] for n in found["notes"] if n["tone"] == "caution")
    assert "microwave" in cautions and "Salmonella" in cautions and "local law" in cautions
    assert "never leave a live rodent unattended" in cautions and "vet" in cautions


def test_days_that_are_past_are_told_as_past(room: Keeper) -> None:
    never = " ".join(room.run("feeding", "plan", "EMB").stdout.split())
    assert "due now: yes next meal from: 2026-03-05 no meal on record since it came on" in never
    assert "when did it last eat? say it with its day: warmside record fed EMB" in never
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-10")
    due = " ".join(room.run("feeding", "plan", "EMB").stdout.split())
    assert "due since: 2026-02-24" in due and "and by: 2026-03-10" in due
    assert "no handling for 48 hours after the meal" in due


def test_a_stale_weight_widens_the_meal_and_says_so(room: Keeper) -> None:
    fresh = room.json("feeding", "plan", "KES")
    room.pass_days(200)
    stale = room.json("feeding", "plan", "KES")
    assert stale["mass_stale"] and stale["mass_low_g"] < 980 < stale["mass_high_g"]
    assert stale["meal_low_g"] < fresh["meal_low_g"]
    assert stale["meal_high_g"] > fresh["meal_high_g"]
    assert any("weigh it again" in n["text"] for n in stale["notes"])


def test_without_a_weight_the_plan_says_what_it_can_and_cannot_say(room: Keeper) -> None:
    found = room.json("feeding", "plan", "MOS")
    assert found["interval_low_days"] >= 1 and "meal_g" not in found and "fits" not in found
    assert any("weigh it first" in n["text"] for n in found["notes"])


def test_omnivores_get_plants_by_weight(room: Keeper) -> None:
    room.run(
        "animal", "add", "Thorn", "--species", "central bearded dragon", "--since", "2025-01-01"
    )
    room.run("record", "weighed", "THO=420g")
    found = room.json("feeding", "plan", "THO")
    assert [f["prey"] for f in found["fits"]] == ["leafy-greens", "weeds", "vegetables"]
    assert (found["meal_low_g"], found["meal_high_g"]) == pytest.approx((12.6, 25.2))


def test_the_plan_of_all_has_a_row_for_each(room: Keeper) -> None:
    room.run("species", "add", "Nomen nudum", "--common", "invented", "--group", "other")
    room.run("animal", "add", "Otto", "--species", "Nomen nudum", "--since", "2025-01-01")
    found = room.json("feeding", "plan", "--all")["plans"]
    assert {p["animal"] for p in found} == {"EMB", "KES", "BAS", "MOS", "OTT"}
    (otto,) = (p for p in found if p["animal"] == "OTT")
    assert otto["due_from"] is None and "no feeding row for Nomen nudum" in otto["why"]


def test_a_group_says_how_often_and_never_what(room: Keeper) -> None:
    room.run("species", "add", "Liasis fictus", "--common", "invented python", "--group", "python")
    room.run("animal", "add", "Nox", "--species", "Liasis fictus", "--since", "2025-01-01")
    room.run("record", "weighed", "NOX=900g")
    found = room.json("feeding", "plan", "NOX")
    assert found["interval_low_days"] >= 5 and "meal_g" not in found and "fits" not in found
    assert any("what it eats is not known here" in n["text"] for n in found["notes"])


def test_own_feeding_replaces_the_row_until_it_is_dropped(room: Keeper) -> None:
    room.run("feeding", "set", "EMB", "--interval", "14-21", "--prey", "rat", "--meal", "5-6")
    found = room.json("feeding", "plan", "EMB")
    assert (found["interval_low_days"], found["interval_high_days"]) == (14, 21)
    assert found["interval_basis"]["mark"] == "keeper's own"
    assert {f["prey"].split("-")[0] for f in found["fits"]} == {"rat"}
    room.run("feeding", "set", "EMB", "--interval", "10")
    assert room.json("feeding", "plan", "EMB")["own"] == [
        "every 10 days",
        "5 to 6 % of body mass",
        "prey: rat",
    ]
    room.run("feeding", "drop", "EMB")
    assert room.json("feeding", "plan", "EMB")["interval_high_days"] == 28
    room.run("undo")
    assert room.json("feeding", "plan", "EMB")["interval_high_days"] == 10


def test_the_balance_holds_meals_against_needs(room: Keeper) -> None:
    for week in range(8):
        rat = ("--item", "small rat", "--mass", "70g", "--at", f"{2 + 7 * week} days ago")
        room.run("record", "fed", "EMB", *rat)
    room.run("record", "climate", "EMB", "--warm", "31C", "--cool", "26C", "--at", "2026-02-20")
    found = room.json("feeding", "balance", "EMB")
    assert found["month_g"] == pytest.approx(8 * 70 * 30.4 / 56)
    assert found["usual_share_low_percent"] < found["month_share_percent"]
    assert found["eaten_kj_per_day"] > found["net_kj_per_day"] > 0
    assert found["ratio"] == pytest.approx(found["net_kj_per_day"] / found["resting_kj_per_day"])
    assert found["ratio_low"] < found["ratio"] < found["ratio_high"]
    assert len(found["meals"]) == 8 and found["verdict"] in ("about even", "growing")
    eaten = found["balance"]["lines"][0]["y_kj"]
    assert eaten == sorted(eaten)
    assert eaten[-1] == pytest.approx(found["net_kj_per_day"] * 56)


def test_a_balance_over_more_meals_than_the_recent_ones_has_them_all(room: Keeper) -> None:
    for n in range(50):
        room.run("record", "fed", "BAS", "--item", "adult cricket", "--at", f"{n} days ago")
    assert len(room.json("feeding", "balance", "BAS")["meals"]) == 50


def test_the_temperatures_it_lives_at_change_what_it_burns(room: Keeper) -> None:
    usual = room.json("feeding", "balance", "EMB")
    assert usual["temperatures"] == "usual for its species"
    room.run("record", "climate", "EMB", "--warm", "28C", "--cool", "22C")
    cooler = room.json("feeding", "balance", "EMB")
    assert cooler["temperatures"] == "read in its enclosure"
    assert cooler["resting_kj_per_day"] < usual["resting_kj_per_day"]
    room.run("feeding", "set", "EMB", "--warm-hours", "20")
    warmer = room.json("feeding", "balance", "EMB")["resting_kj_per_day"]
    assert cooler["resting_kj_per_day"] < warmer


def test_the_zones_of_a_logger_tell_how_warm_it_lives_where_nobody_read_by_hand(
    room: Keeper,
) -> None:
    means = (
        Estimate(c, c - 3, c + 3, Unit.TEMPERATURE, Basis("a logger")) for c in (28.0, 22.0, 25.0)
    )
    zones = list(means)

    def logged(what: str, about: About) -> list[Estimate]:
        return {1: zones, 2: zones[:1]}.get(about.animal_id or 0, [])

    declared = {"answers": (Answers("zone temperature", Unit.TEMPERATURE),)}
    usual = room.json("feeding", "balance", "EMB")["resting_kj_per_day"]
    with throw_away_plugin("logger", manifest=declared, warmside_answer=logged):
        room.run("plugin", "enable", "logger")
        cooler, one = (room.json("feeding", "balance", code) for code in ("EMB", "KES"))
        assert cooler["temperatures"] == "read in its enclosure"
        assert one["temperatures"] == "usual for its species", "one zone has no cool side"
        room.run("record", "climate", "EMB", "--warm", "28C", "--cool", "22C")
        by_hand = room.json("feeding", "balance", "EMB")
    assert cooler["resting_kj_per_day"] < usual
    assert by_hand["resting_kj_per_day"] == cooler["resting_kj_per_day"]


@pytest.mark.parametrize("ending", ["svg", "pdf", "txt"])
def test_the_balance_can_be_saved(room: Keeper, tmp_path: Path, ending: str) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "3 days ago")
    room.run("record", "fed", "EMB", "--item", "small rat", "--outcome", "refused")
    target = tmp_path / f"balance.{ending}"
    shown = room.run("feeding", "balance", "EMB", "--save", str(target))
    assert "burnt at rest" in shown.stdout and target.stat().st_size > 500


def test_energy_without_an_animal(room: Keeper) -> None:
    """Andrews & Pough 1985, Eq. 2 with 20.1 J/ml, and Nagy 2005, both worked out by hand."""
    found = room.json("feeding", "energy", "--mass", "500g", "--temperature", "30C")
    standard = 0.013 * 500**0.80 * 10 ** (0.038 * 30) * 20.1 * 24 / 1000
    assert found["standard_kj_per_day"] == pytest.approx(standard, rel=1e-9)
    assert found["standard_kj_per_day"] == pytest.approx(12.4890, rel=1e-4)
    assert found["resting_kj_per_day"] == pytest.approx(17.2396, rel=1e-4)
    assert found["field_kj_per_day"] == pytest.approx(49.1632, rel=1e-4)
    same = room.json("feeding", "energy", "--mass", "0.5kg", "--temperature", "86F")
    assert math.isclose(same["standard_kj_per_day"], found["standard_kj_per_day"], rel_tol=1e-9)


def test_species_are_listed_with_source_and_mark(room: Keeper) -> None:
    rows = room.json("feeding", "species")["species"]
    assert len(rows) >= 15 and all(r["source"] and r["mark"] for r in rows)
    one = room.json("feeding", "species", "ball python")
    assert one["species"] == "Python regius" and len(one["stages"]) == 4


def test_the_order_is_what_is_planned_less_the_stock_in_packs(room: Keeper) -> None:
    room.run("feeding", "pack", "set", "small-rat", "5", "--price", "14")
    room.run("feeding", "stock", "add", "small rat", "1")
    found = room.json("feeding", "order", "--weeks", "8", "--pack", "mouse-large=10@20")
    (rats,) = (r for r in found["lines"] if r["prey"] == "rat-small")
    assert rats["short"] == rats["planned"] - rats["stock"] and rats["stock"] == 1
    assert rats["bought"] % 5 == 0 and 0 <= rats["bought"] - rats["short"] < 5
    assert rats["cost"] == rats["bought"] // 5 * 14
    assert found["cost"] == sum(r["cost"] or 0 for r in found["lines"])
    rows = found["animals"]
    whys = {a["animal"]: a for a in rows}
    assert sum(a["items"] or 0 for a in rows) == sum(r["planned"] for r in found["lines"])
    assert (
        whys["Ember (EMB)"]["meals"] < whys["Basil (BAS)"]["meals"] < whys["Basil (BAS)"]["items"]
    )
    assert "weigh it first" in whys["Moss (MOS)"]["words"]


def test_packs_can_be_changed_and_dropped(room: Keeper) -> None:
    room.run("feeding", "pack", "set", "adult mouse", "25", "--price", "30")
    room.run("feeding", "pack", "set", "mouse-adult", "25", "--price", "32.5")
    assert room.json("feeding", "pack", "list")["packs"] == [
        {"prey": "mouse-adult", "size": 25, "price": 32.5}
    ]
    room.run("feeding", "pack", "drop", "adult mouse", "25")
    assert room.json("feeding", "pack", "list")["packs"] == []


def test_the_report_has_the_plan_and_the_balance(room: Keeper) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-28")
    titles = {s["title"]: s for s in room.json("report", "EMB")["sections"]}
    assert titles["Feeding"]["due_from"] == "2026-03-14"
    assert titles["Energy balance"]["balance"]["lines"]


def test_the_label_line_tells_diet_and_interval(room: Keeper) -> None:
    with room.ask() as ask:
        lines = ask.label_lines(About(1), ask.book.today)
    assert [(x.key, x.text) for x in lines] == [
        ("feeding.diet", "1 × small rat every 14 to 28 days"),
        ("feeding.do-not", "handle it for 48 hours after a meal"),
    ]


def test_every_setting_is_shown_with_its_mark(room: Keeper) -> None:
    rows = room.json("plugin", "show", "feeding")["settings"]
    assert len(rows) > 20 and all(r["source"].endswith("]") for r in rows)


def test_an_order_without_any_price_costs_nothing_that_is_known(room: Keeper) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-01")
    assert room.json("feeding", "order")["cost"] is None
    assert "nothing has one" in room.run("feeding", "order").stdout
    room.run("feeding", "stock", "add", "small rat", "99")
    assert room.json("feeding", "order")["cost"] is None, "what is in stock is not bought"
