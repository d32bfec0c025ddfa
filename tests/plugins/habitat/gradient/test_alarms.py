"""What readings want the keeper to do at once, on healthy and failing places."""

from __future__ import annotations

import math
import random

import pytest
from msgspec.structs import replace

from warmside.plugins.habitat.gradient.alarms import alarms
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
