"""What readings want the keeper to do at once, on healthy and failing places."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.plugins.habitat.gradient.alarms import alarms, may_alarm
from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.targets import Wanted

HOUR = 3600
LIMITS = Limits(hot=32.0, cold=18.0, wanted=Wanted(warm=(28.0, 32.0)))
ON = 8 * HOUR
LIT = (ON, 20 * HOUR)


def readings(*values: float, step: int = 300) -> list[tuple[int, float]]:
    return [(n * step, v) for n, v in enumerate(values)]


def hours(value: float, number: float) -> list[float]:
    return [value] * (round(number * 12) + 1)


def test_the_coolest_place_above_its_limit_for_an_hour() -> None:
    zones = {"warm side": readings(*hours(36, 3)), "cool side": readings(*hours(33.5, 1))}
    (found,) = alarms(zones, LIMITS, None)
    assert (found.what, found.zone, found.value) == ("hot", "cool side", 33.5)
    zones["cool side"] = readings(*hours(33.5, 0.8), *hours(31, 1))
    assert alarms(zones, LIMITS, None) == []


def test_a_hot_basking_place_alone_says_nothing() -> None:
    assert alarms({"basking stone": readings(*hours(45, 5))}, LIMITS, None) == []


def test_the_warmest_place_below_its_limit_for_a_night() -> None:
    zones = {"warm side": readings(*hours(17, 6)), "cool side": readings(*hours(15, 6))}
    (found,) = alarms(zones, LIMITS, None)
    assert (found.what, found.zone) == ("cold", "warm side")
    assert alarms({"warm side": readings(*hours(17, 4))}, LIMITS, None) == []


def test_heat_that_did_not_come_on_with_the_lights() -> None:
    cold = [(ON + n * 300, 23.0) for n in range(70)]
    (found,) = alarms({"warm side": cold}, LIMITS, LIT)
    assert found.what == "failed"
    assert alarms({"warm side": cold}, LIMITS, None) == [], "at night it may be cool"
    rising = [(ON + n * 300, 23.0 + n * 0.5) for n in range(40)]
    assert alarms({"warm side": rising}, LIMITS, LIT) == []


def test_a_warm_side_without_control_is_told_of_before_the_cool_side_is_hot() -> None:
    """Eight degrees over its most for an hour (common practice, no source)."""
    zones = {"warm side": readings(*hours(46, 2)), "cool side": readings(*hours(29, 2))}
    (found,) = alarms(zones, LIMITS, None)
    assert (found.what, found.zone, found.value, found.lasts) == ("over", "warm side", 46, True)
    zones["warm side"] = readings(*hours(39, 5))
    assert alarms(zones, LIMITS, None) == [], "a probe below a lamp"


def test_heat_that_fails_in_a_warm_room_shows_by_the_cool_side() -> None:
    warm, cool = (readings(*[c] * 160) for c in (26.2, 25.9))
    late = [(at + ON, v) for at, v in warm]
    both = {"warm side": late, "cool side": [(at + ON, v) for at, v in cool]}
    assert [a.what for a in alarms(both, LIMITS, LIT)] == ["failed"]
    both["cool side"] = [(at + ON, 23.5) for at, _ in cool]
    assert alarms(both, LIMITS, LIT) == [], "it is warmed, if less than it should be"


def test_the_air_below_a_basking_lamp_is_not_held_against_the_surface() -> None:
    """Of a lizard that basks, 35 to 42 is the stone; its air must only be above the cool side's."""
    wanted = Wanted(warm=(35.0, 42.0), cool=(22.0, 27.0), basks=True)
    limits = Limits(hot=36.0, cold=14.0, wanted=wanted)
    well = [(ON + n * 300, 31.0) for n in range(140)]
    cool = [(at, 25.0) for at, _ in well]
    assert alarms({"warm side": well, "cool side": cool}, limits, LIT) == []
    dark = [(at, 24.5) for at, _ in well]
    found = alarms({"warm side": dark, "cool side": cool}, limits, LIT)
    assert [a.what for a in found] == ["failed"]


def test_a_place_without_a_heat_source_has_none_that_fails() -> None:
    cold = {"warm side": [(ON + n * 300, 20.0) for n in range(140)]}
    assert alarms(cold, replace(LIMITS, heated=False), LIT) == []


def test_what_lasts_is_told_from_what_is_over() -> None:
    bad = hours(33.5, 2)
    zones = {"warm side": readings(*hours(30, 4)), "cool side": readings(*bad)}
    assert [a.lasts for a in alarms(zones, LIMITS, None)] == [True]
    zones["cool side"] = readings(*bad, *hours(28, 1))
    assert [a.lasts for a in alarms(zones, LIMITS, None)] == [False]


def test_a_logger_of_every_hour_joins_into_a_stretch() -> None:
    slow = {"cool side": readings(33, 33, 33, 33, step=HOUR)}
    assert [a.what for a in alarms(slow, LIMITS, None)] == ["hot"]


@pytest.mark.parametrize("seed", range(5))
def test_places_that_are_well_are_left_in_peace(seed: int) -> None:
    """200 days: a warm side that swings by 2 degrees around 30, a night drop to 21, warm summer
    rooms to 27, a probe's noise of 0.3; lamps go on and off up to three hours off the setting."""
    made = random.Random(seed)
    found = 0
    for _ in range(40):
        room = made.uniform(20, 27)
        on, off = made.randrange(7, 12), made.randrange(17, 22)
        warm, cool = [], []
        for n in range(0, 24 * 60, 10):
            lit = on * 60 <= n < off * 60
            heat = 30 + math.sin(n / 12) if lit else max(21.0, room)
            warm.append((n * 60, heat + made.gauss(0, 0.3)))
            cool.append((n * 60, max(room, 22.0) + 1.5 * lit + made.gauss(0, 0.3)))
        found += len(alarms({"warm side": warm, "cool side": cool}, LIMITS, LIT))
    assert found == 0


def let_through(zones: dict[str, list[tuple[int, float]]], limits: Limits) -> bool:
    """Whether the quick look at the least and most of each zone leaves an alarm possible."""
    found = []
    for zone, those in zones.items():
        values = [v for _, v in those]
        lit = [v for at, v in those if LIT[0] <= at < LIT[1]]
        while_lit = (min(lit), max(lit)) if lit else None
        found.append(may_alarm(zone, (min(values), max(values)), while_lit, limits))
    return any(found)


DAYS = st.lists(st.sampled_from([10.0, 17.0, 22.0, 26.0, 29.0, 34.0, 45.0]), min_size=3, max_size=3)


@settings(max_examples=60)
@given(DAYS, DAYS, st.booleans(), st.sampled_from([None, 18.0]), st.sampled_from([None, 32.0]))
def test_the_quick_look_lets_through_whatever_is_an_alarm(
    warm: list[float], cool: list[float], basks: bool, cold: float | None, hot: float | None
) -> None:
    """Eight hours each of three temperatures on the warm side and on the cool side."""
    wanted = Wanted(warm=(28.0, 32.0), cool=(22.0, 27.0), basks=basks)
    limits = Limits(hot=hot, cold=cold, wanted=wanted)
    zones = {
        "warm side": readings(*(v for c in warm for v in [c] * 16), step=1800),
        "cool side": readings(*(v for c in cool for v in [c] * 16), step=1800),
    }
    assert let_through(zones, limits) or not alarms(zones, limits, LIT)


def test_the_quick_look_passes_over_what_is_well_and_stops_at_each_kind_of_alarm() -> None:
    well = {"warm side": readings(*hours(30, 24)), "cool side": readings(*hours(25, 24))}
    assert not let_through(well, LIMITS)
    for side, value in (("warm side", 17), ("cool side", 33), ("warm side", 46), ("warm side", 25)):
        assert let_through({**well, side: readings(*hours(value, 24))}, LIMITS), (side, value)
    night = {**well, "warm side": readings(*hours(15, 7), *hours(30, 17))}
    assert [a.what for a in alarms(night, LIMITS, LIT)] == ["cold"] and let_through(night, LIMITS)


def test_of_several_zones_without_a_warm_side_the_coolest_is_where_it_can_go() -> None:
    """A middle that is hot is no alarm while the cool side is not."""
    zones = {"middle": readings(*hours(35, 3)), "cool side": readings(*hours(28, 3))}
    assert alarms(zones, LIMITS, None) == []
    two = {"left": readings(*hours(35, 3)), "right": readings(*hours(28, 3))}
    assert alarms(two, LIMITS, None) == []
    two["right"] = readings(*hours(34, 3))
    assert [(a.what, a.zone) for a in alarms(two, LIMITS, None)] == [("hot", "right")]
