"""What readings want the keeper to do at once, on healthy and failing places."""

from __future__ import annotations

import math
import random

import pytest

from warmside.plugins.habitat.gradient.alarms import Limits, alarms
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
