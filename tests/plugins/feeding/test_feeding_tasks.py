"""Feeding tasks in the round, how they are settled, and the list of prey to thaw."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from ics import Calendar

from warmside.core.plugins.manifest import Answers
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin


def tasks(keeper: Keeper, *more: str) -> dict[str, Any]:
    return {t["animal"] or "": t for t in keeper.json("today", *more)["tasks"]}


def fed(keeper: Keeper, code: str, item: str, at: str, **more: str) -> None:
    options = [word for k, v in more.items() for word in (f"--{k}", v)]
    keeper.run("record", "fed", code, "--item", item, "--at", at, *options)


def test_an_animal_is_due_after_its_interval_and_the_task_names_the_meal(room: Keeper) -> None:
    fed(room, "EMB", "small rat", "2026-03-01")
    assert "EMB" not in tasks(room)
    room.pass_days(10)
    task = tasks(room)["EMB"]
    assert task["what"] == "feed 1 × small rat" and task["due"] == "2026-03-15"
    assert task["why"].startswith("every 14 to 28 days as adult, last ate 14 days ago")
    assert task["mark"] == "common practice, no source" and len(task["events"]) == 1


def test_done_records_the_planned_meal_and_the_task_is_gone(room: Keeper) -> None:
    number = str(tasks(room)["EMB"]["number"])
    room.run("done", number)
    (event,) = (e for e in room.json("history", "EMB")["events"] if "fed" in e["what"])
    assert "small rat" in event["what"] and "thawed" in event["what"]
    assert "EMB" not in tasks(room)


def test_the_mass_is_recorded_only_where_the_prey_in_stock_was_weighed(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "small rat", "3", "--each", "71g")
    room.run("done", str(tasks(room)["EMB"]["number"]))
    with room.book() as book:
        (event,) = book.events("fed")
    assert event.data["mass_g"] == 71


def test_a_lot_too_small_for_the_meal_gives_no_mass(room: Keeper) -> None:
    room.run("feeding", "set", "EMB", "--prey", "mouse")
    wanted = room.json("feeding", "plan", "EMB")["fits"][0]
    assert wanted["count_low"] == 2, "else this test shows nothing"
    room.run("feeding", "stock", "add", wanted["prey"], "1", "--each", "40g")
    room.run("done", str(tasks(room)["EMB"]["number"]))
    with room.book() as book:
        (event,) = book.events("fed")
    assert (event.data["count"], event.data["mass_g"]) == (2, None)


def test_without_a_weight_the_task_asks_for_one_and_takes_the_prey_from_the_keeper(
    room: Keeper,
) -> None:
    room.run("animal", "add", "Reed", "--species", "corn snake", "--since", "2025-01-01")
    task = tasks(room)["REE"]
    assert task["what"] == "feed prey (when last?)" and "weigh it first" in task["why"]
    room.run("done", f"{task['number']}=adult mouse")
    assert "REE" not in tasks(room)


def of(keeper: Keeper, code: str) -> dict[str, str]:
    """What is due for one animal, with the number of each task; no question is told apart."""
    found = keeper.json("today")["tasks"]
    told = {t["what"].removesuffix(" (when last?)"): t["number"] for t in found}
    return {what: n for what, n in told.items() if found[n - 1]["animal"] == code}


def test_each_part_of_a_diet_is_due_and_done_by_itself(room: Keeper) -> None:
    """A crested gecko of 42 g: complete food every 2 to 3 days, insects every 7 to 14."""
    room.run("record", "weighed", "MOS=42g")
    parts = of(room, "MOS")
    insects, powder = parts
    assert insects.endswith("cricket") and powder == "feed complete powder diet, mixed"
    room.run("done", parts[powder])
    assert list(of(room, "MOS")) == [insects]
    room.run("feeding", "fed", "MOS=3 half-grown crickets")
    assert of(room, "MOS") == {}
    room.pass_days(2)
    assert list(of(room, "MOS")) == ["feed complete powder diet, mixed"]
    room.pass_days(5)
    assert len(of(room, "MOS")) == 2


def test_parts_that_are_fed_by_eye_are_told_apart(room: Keeper) -> None:
    """Unweighed, no size is known: the parts stand in the round all the same, each by its name."""
    assert set(of(room, "MOS")) == {"feed complete powder diet, mixed", "feed insects"}
    box = ("animal", "add", "Fern", "--species", "eastern box turtle", "--since", "2025-01-01")
    room.run(*box)
    parts = of(room, "FER")
    assert set(parts) == {"feed animal food", "feed mushrooms"}
    room.run("done", parts["feed animal food"])
    assert set(of(room, "FER")) == {"feed mushrooms"}


def test_one_that_was_entered_after_it_came_is_asked_about_and_not_called_late(
    room: Keeper,
) -> None:
    """Ember came in January 2025 and was entered on 5 March 2026, without a meal."""
    for days in (0, 10, 18):
        room.pass_days(days)
        task = tasks(room)["EMB"]
        assert task["what"].endswith("(when last?)") and task["late_days"] is None
        assert "no meal on record yet: when did it last eat?" in task["why"]
        assert task["due"] == "2026-03-05"
    room.pass_days(1)
    assert tasks(room)["EMB"]["late_days"] == 1  # 29 days since it was entered, of at most 28
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-10")
    told = tasks(room)["EMB"]
    assert "(when last?)" not in told["what"] and told["late_days"] > 1


def test_a_move_makes_no_meal_late_of_which_nothing_is_known(room: Keeper) -> None:
    room.run("move", "EMB", "--to", "KES")
    room.pass_days(14)  # the days of rest after the move are over
    task = tasks(room)["EMB"]
    assert task["what"].endswith("(when last?)") and task["late_days"] is None


def test_one_that_eats_every_day_is_fed_and_not_asked_about(room: Keeper) -> None:
    born = ("--hatched", "2010", "--since", "2018-05-01")
    room.run("animal", "add", "Toto", "--species", "Hermann's tortoise", *born)
    assert tasks(room)["TOT"]["what"] == "feed weeds and flowers"


def test_a_newcomer_is_late_from_the_day_on_which_it_may_eat(room: Keeper) -> None:
    """All its days here are on record: nothing hides behind the day of its entry."""
    room.run("arrive", "Reed", "--species", "corn snake", "--how", "bought")
    room.pass_days(60)
    task = tasks(room)["REE"]
    assert task["late_days"] > 40 and "(when last?)" not in task["what"]
    assert "when did it last eat?" in task["why"]


def test_insects_come_with_their_powder(room: Keeper) -> None:
    task = tasks(room)["BAS"]
    assert "half-grown cricket" in task["what"] and "dust: plain calcium" in task["why"]


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("record", "shedding", "EMB", "--stage", "opaque"), "opaque"),
        (("record", "cooling", "EMB", "--state", "begun"), "cooling"),
        (("move", "EMB", "--to", "KES"), "moved"),
    ],
)
def test_a_reason_to_wait_takes_the_task_away_and_the_plan_says_why(
    room: Keeper, words: tuple[str, ...], reason: str
) -> None:
    room.run(*words)
    assert "EMB" not in tasks(room)
    (wait,) = room.json("feeding", "plan", "EMB")["waits"]
    assert wait["code"] == reason and wait["blocks"] and wait["mark"]


def test_a_newcomer_is_left_alone_for_a_week(room: Keeper) -> None:
    room.run(
        "arrive", "Otter", "--species", "ball python", "--enclosure", "EMB", "--at", "2026-03-01"
    )
    room.run("record", "weighed", "OTT=300g", "--at", "2026-03-01")
    assert "OTT" not in tasks(room) and "OTT" in tasks(room, "--on", "2026-03-08")


def test_a_setting_changes_the_rule_and_is_the_keepers_own(room: Keeper) -> None:
    room.run("arrive", "Otter", "--species", "ball python", "--at", "2026-03-01")
    room.run("record", "weighed", "OTT=300g", "--at", "2026-03-01")
    room.run("plugin", "set", "feeding", "arrival_days", "3")
    assert "OTT" in tasks(room)
    room.run("plugin", "set", "feeding", "arrival_days", "10")
    (wait,) = room.json("feeding", "plan", "OTT")["waits"]
    assert wait["mark"] == "keeper's own" and wait["until"] == "2026-03-11"


def test_prey_is_thawed_the_evening_before_as_one_list(evening: Keeper) -> None:
    task = tasks(evening)[""]
    assert task["what"] == "thaw prey for tomorrow"
    assert "2 × small rat for 2 animals on 2026-03-06" in task["why"]
    assert (
        "sealed box away from human food" in task["why"]
        and task["command"] == "warmside feeding thaw --done"
    )
    rows = evening.json("feeding", "thaw")["thaw"]
    assert [(r["prey"], r["count"], r["animals"]) for r in rows] == [("rat-small", 2, 2)]


def test_a_value_typed_at_the_thawing_by_a_slip_settles_nothing(evening: Keeper) -> None:
    number = next(t["number"] for t in evening.json("today")["tasks"] if "thaw" in t["what"])
    refused = evening.run("done", f"{number}=refused", ok=False)
    assert "takes no value, not refused" in refused.complaint(2)
    assert any("thaw" in t["what"] for t in evening.json("today")["tasks"])
    evening.run("done", str(number))
    assert not any("thaw" in t["what"] for t in evening.json("today")["tasks"])


def test_a_thawed_list_is_off_the_round_until_the_next_evening(evening: Keeper) -> None:
    evening.run("feeding", "thaw", "--done")
    assert "" not in tasks(evening)
    again = evening.run("feeding", "thaw", "--done", ok=False)
    assert again.code == 4 and "thawed already" in again.stderr
    evening.pass_days(1)
    assert "" not in tasks(evening), "its prey is thawed"
    assert "EMB" in tasks(evening)
    evening.pass_days(-1)
    evening.run("undo")
    assert "" in tasks(evening)


def test_what_is_due_today_is_not_thawed_again_for_tomorrow(room: Keeper) -> None:
    assert {"EMB", "KES"} <= set(tasks(room)) and "" not in tasks(room)
    assert room.json("feeding", "thaw")["thaw"] == []
    now = room.json("feeding", "thaw", "--on", "today")["thaw"]
    assert [(r["prey"], r["count"]) for r in now] == [("rat-small", 2)]
    assert "thaw --on today" in room.run("feeding", "thaw").stdout


def test_the_calendar_feeds_a_newcomer_when_the_plan_does(room: Keeper) -> None:
    room.run("arrive", "Otter", "--species", "ball python", "--at", "2026-03-04")
    room.run("record", "weighed", "OTT=900g", "--at", "2026-03-04")
    planned = room.json("feeding", "plan", "OTT")["due_from"]
    assert planned == "2026-03-11", "a grown snake settles for seven days"
    target = room.path.parent / "round.ics"
    room.run("calendar", str(target), "--weeks", "3")
    events = Calendar(target.read_bytes().decode()).events
    days = sorted(e.begin.date() for e in events if "(OTT): feed" in e.name)
    assert days[0].isoformat() == planned


def test_the_calendar_lists_each_meal_of_the_coming_weeks_once(room: Keeper) -> None:
    """The first meal when it is due, the next ones after the middle of the interval."""
    fed(room, "EMB", "small rat", "2026-03-01")
    low, high = (room.json("feeding", "plan", "EMB")[f"interval_{x}_days"] for x in ("low", "high"))
    target = room.path.parent / "round.ics"
    room.run("calendar", str(target), "--weeks", "9")
    events = Calendar(target.read_bytes().decode()).events
    days = sorted(e.begin.date() for e in events if e.name.startswith("Ember (EMB): feed"))
    assert days[0] == date(2026, 3, 1) + timedelta(days=round(low))
    assert {(b - a).days for a, b in pairwise(days)} == {round((low + high) / 2)}


def answering(quantity: str, *given: Estimate) -> Any:
    """A plugin's hook that answers a quantity of the first animal."""

    def warmside_answer(what: str, about: About) -> list[Estimate]:
        return list(given) if (what, about) == (quantity, About(1)) else []

    return warmside_answer


def test_another_plugin_may_say_what_it_weighs_now(room: Keeper) -> None:
    assert room.json("feeding", "plan", "EMB")["mass_g"] == 1240
    told = Estimate(1400, 1395, 1405, Unit.MASS, Basis("its own growth"))
    manifest = {"answers": (Answers("mass", Unit.MASS),)}
    with throw_away_plugin("scale", manifest=manifest, warmside_answer=answering("mass", told)):
        room.run("plugin", "enable", "scale")
        found = room.json("feeding", "plan", "EMB")
        assert (found["mass_g"], found["mass_low_g"]) == (1400, 1395)
        assert found["mass_basis"]["rule"] == "its own growth"
        assert room.json("feeding", "plan", "KES")["mass_g"] == 980


def test_of_several_masses_expected_the_surest_counts(room: Keeper) -> None:
    manifest = {"answers": (Answers("mass", Unit.MASS),)}
    vague = Estimate(1500, 1300, 1700, Unit.MASS, Basis("a guess"))
    sure = Estimate(1400, 1390, 1410, Unit.MASS, Basis("its own growth"))
    with (
        throw_away_plugin("ascale", manifest=manifest, warmside_answer=answering("mass", vague)),
        throw_away_plugin("bscale", manifest=manifest, warmside_answer=answering("mass", sure)),
    ):
        room.run("plugin", "enable", "ascale")
        room.run("plugin", "enable", "bscale")
        assert room.json("feeding", "plan", "EMB")["mass_g"] == 1400


def test_another_plugin_may_say_when_a_slough_is_expected(room: Keeper) -> None:
    told = Estimate(2, 1, 3, Unit.DAYS, Basis("its own sheds"))
    manifest = {"answers": (Answers("days to slough", Unit.DAYS),)}
    hook = answering("days to slough", told)
    fed(room, "EMB", "small rat", "2026-02-21")
    with throw_away_plugin("skin", manifest=manifest, warmside_answer=hook):
        room.run("plugin", "enable", "skin")
        assert "EMB" not in tasks(room) and "KES" in tasks(room)
        (wait,) = room.json("feeding", "plan", "EMB")["waits"]
        assert wait["code"] == "before-slough" and wait["until"] == "2026-03-08"


def test_a_meal_is_smaller_while_gravid(room: Keeper) -> None:
    room.run("record", "gravid", "EMB", "--state", "confirmed")
    found = room.json("feeding", "plan", "EMB")
    assert found["meal_high_g"] < 0.61 * 96 and found["due"]
    assert "gravid since" in tasks(room)["EMB"]["why"]


def test_insect_meals_may_count_as_dusted_by_the_plan(room: Keeper) -> None:
    for days in (13, 10, 7, 4):
        room.run("record", "fed", "BAS", "--item", "adult cricket", "--at", f"{days} days ago")
    assert room.json("feeding", "plan", "BAS")["dust"] == "plain calcium"
    room.run("plugin", "set", "feeding", "dust_as_planned", "yes")
    assert room.json("feeding", "plan", "BAS")["dust"] == "calcium with vitamin D3"


def test_a_score_by_eye_and_a_target_hold_the_meals_of_a_fat_one(room: Keeper) -> None:
    """Ember, of 1240 g: the score lengthens the interval, the target sizes the meal."""
    usual = room.json("feeding", "plan", "EMB")
    room.run("record", "condition", "EMB", "--score", "4")
    scored = room.json("feeding", "plan", "EMB")
    assert scored["interval_low_days"] == usual["interval_high_days"]
    assert scored["meal_high_g"] <= usual["meal_high_g"]
    room.run("undo")
    room.run("animal", "set", "EMB", "target_mass", "900g")
    target = room.json("feeding", "plan", "EMB")
    assert target["meal_high_g"] < usual["meal_high_g"]
    assert "over its target of 900 g" in room.run("feeding", "plan", "EMB").stdout
