"""Healthy animals of ten kinds; each of these functions makes one, at random but for its seed."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import date

from tests.bench.alarms.bodies import Ramp, growing, ramped, steady
from tests.bench.alarms.lives import AHEAD, START, WEEKS, Life, Menu, feed, near, shed

Make = Callable[[random.Random], Life]
HISTORY = 400
END = START + 7 * WEEKS
LAST = END + AHEAD
CRICKET = "adult cricket"


def hatchling_snake(rng: random.Random) -> Life:
    """A corn snake in its first year, fed every 6 days, weighed weekly."""
    born = START - rng.randint(5, 40)
    return young_snake(rng, "hatchling snake", born, born + 5)


def juvenile_snake(rng: random.Random) -> Life:
    """A corn snake in its second year."""
    born = START - rng.randint(300, 420)
    return young_snake(rng, "juvenile snake", born, START - 200)


def young_snake(rng: random.Random, scenario: str, born: int, first: int) -> Life:
    """A growing corn snake whose record begins on a day."""
    adult, hatched, rate = rng.uniform(400, 700), rng.uniform(6, 9), rng.uniform(0.0024, 0.0034)
    body = growing(rng, LAST - first, adult, hatched, rate, first - born)
    life = _life(rng, scenario, "Pantherophis guttatus", born, first, body, 7)
    sheds = shed(rng, life, rng.uniform(28, 40), END, winter=True, noted=0.9)
    every = 6 if scenario.startswith("hatchling") else 8
    menu = Menu(every, 1, rng.uniform(0.10, 0.13), rng.uniform(4, 6))
    feed(rng, life, menu, near(sheds, 8, 0, 0.4, 0.05), END)
    return life


def adult_snake(rng: random.Random) -> Life:
    """A grown corn snake that eats all year."""
    return grown_snake(rng, "adult snake")


def grown_snake(rng: random.Random, scenario: str, step_g: float = 1.0) -> Life:
    """A grown corn snake, fed every two weeks, without a shed in winter."""
    first = START - HISTORY
    body = steady(rng, LAST - first, rng.uniform(400, 900))
    life = _life(rng, scenario, "Pantherophis guttatus", _old(rng), first, body, 30, step_g)
    sheds = shed(rng, life, rng.uniform(50, 75), END, winter=False, noted=0.9)
    menu = Menu(14, 2, rng.uniform(0.05, 0.07), rng.uniform(4, 7))
    feed(rng, life, menu, near(sheds, 8, 0, 0.5, 0.05), END)
    return life


def fasting_male(rng: random.Random) -> Life:
    """A grown male ball python that eats nothing for some months each winter, losing 4 to 8 %."""
    first = START - HISTORY
    body = steady(rng, LAST - first, rng.uniform(900, 1500))
    fasts = [(_day(y, 11, 1) + rng.randint(-15, 20), rng.randint(80, 130)) for y in (2024, 2025)]
    ramps = []
    for start, length in fasts:
        left = 1 - rng.uniform(0.04, 0.08)
        ramps += [Ramp(start, start + length, left)]
        ramps += [Ramp(start + length, start + length + rng.randint(60, 110), 1 / left)]
    life = _life(
        rng,
        "winter-fasting male",
        "Python regius",
        _old(rng),
        first,
        ramped(body, first, ramps),
        30,
    )
    life.sex = "male"
    sheds = shed(rng, life, rng.uniform(55, 80), END, winter=False, noted=0.9)
    days = {d for start, length in fasts for d in range(start, start + length)}
    usual = near(sheds, 8, 0, 0.5, 0.1)
    menu = Menu(12, 2, rng.uniform(0.05, 0.07), rng.uniform(5, 7))
    feed(rng, life, menu, lambda day: 1.0 if day in days else usual(day), END)
    return life


def cooled_snake(rng: random.Random) -> Life:
    """A grown kingsnake in winter cooling for ten weeks, losing 2 to 6 %."""
    first = START - HISTORY
    body = steady(rng, LAST - first, rng.uniform(400, 900))
    cold = [(_day(y, 11, 25) + rng.randint(-10, 10), rng.randint(60, 85)) for y in (2024, 2025)]
    ramps = []
    for start, length in cold:
        left = 1 - rng.uniform(0.02, 0.06)
        ramps += [Ramp(start, start + length, left)]
        ramps += [Ramp(start + length, start + length + 60, 1 / left)]
    body = ramped(body, first, ramps)
    life = _life(rng, "cooled snake", "Lampropeltis californiae", _old(rng), first, body, 30)
    for start, length in cold:
        life.said += [(start, "cooling", {"state": "begun"})]
        life.said += [(start + length, "cooling", {"state": "ended"})]
    sheds = shed(rng, life, rng.uniform(50, 75), END, winter=False, noted=0.9)
    fed = near(sheds, 8, 0, 0.5, 0.05)
    feed(rng, life, Menu(14, 2, 0.06, rng.uniform(4, 6)), fed, END)
    without = [(start - 14, start + length + 5) for start, length in cold]
    life.said = [
        s for s in life.said if s[1] != "fed" or not any(a <= s[0] <= b for a, b in without)
    ]
    return life


def breeding_snake(rng: random.Random) -> Life:
    """A corn snake that lays a clutch of about a third of her mass each June."""
    life = grown_snake(rng, "breeding snake")
    laid, ramps = [], []
    for year in (2024, 2025):
        day = _day(year, 6, 10) + rng.randint(-20, 20)
        gain, drop = rng.uniform(1.15, 1.28), rng.uniform(0.64, 0.74)
        ramps += [Ramp(day - 75, day - 8, gain), Ramp(day - 1, day, drop)]
        ramps += [Ramp(day + 7, day + rng.randint(90, 150), 1 / (gain * drop))]
        laid.append(day)
        if rng.random() < 0.7:
            life.said.append((day - 45, "gravid", {"state": "suspected"}))
        life.said.append((day, "laid", {"count": rng.randint(10, 18)}))
    life.body_g = ramped(life.body_g, life.first, ramps)
    off = {d for day in laid for d in range(day - 25, day + 1)}
    life.said = [s for s in life.said if s[1] != "fed"]
    feed(rng, life, Menu(10, 2, 0.07, 5.0), lambda d: 0.9 if d in off else 0.05, END)
    return life


def hatchling_gecko(rng: random.Random) -> Life:
    """A leopard gecko in its first year, its insects counted, not weighed."""
    born = START - rng.randint(5, 30)
    return young_gecko(rng, "hatchling gecko", born, born + 3)


def young_gecko(rng: random.Random, scenario: str, born: int, first: int) -> Life:
    """A growing leopard gecko whose record begins on a day."""
    adult, hatched, rate = rng.uniform(48, 75), rng.uniform(2.4, 3.4), rng.uniform(0.007, 0.010)
    body = growing(rng, LAST - first, adult, hatched, rate, first - born)
    life = _life(rng, scenario, "Eublepharis macularius", born, first, body, 7, 0.1)
    shed(rng, life, rng.uniform(18, 28), END, winter=True, noted=0.5)
    menu = Menu(2, 1, 0.05, 2.5, CRICKET, mass_noted=rng.random() < 0.5)
    feed(rng, life, menu, lambda day: 0.1, END)
    return life


def adult_gecko(rng: random.Random) -> Life:
    """A grown leopard gecko on a scale that shows 0.1 g."""
    return grown_gecko(rng, "adult gecko", 0.1)


def coarse_gecko(rng: random.Random) -> Life:
    """A grown leopard gecko on a kitchen scale that shows 5 g."""
    return grown_gecko(rng, "gecko, 5 g scale", 5.0)


def grown_gecko(rng: random.Random, scenario: str, step_g: float) -> Life:
    """A grown leopard gecko that eats a little less in winter."""
    first = START - HISTORY
    body = steady(rng, LAST - first, rng.uniform(50, 80))
    life = _life(rng, scenario, "Eublepharis macularius", _old(rng), first, body, 30, step_g)
    shed(rng, life, rng.uniform(28, 42), END, winter=True, noted=0.4)
    menu = Menu(4, 1, 0.04, 3.0, CRICKET, mass_noted=rng.random() < 0.5)
    feed(rng, life, menu, _winter(0.3, 0.1), END)
    return life


def laying_gecko(rng: random.Random) -> Life:
    """A leopard gecko that lays two eggs about every four weeks from March to July."""
    life = grown_gecko(rng, "laying gecko", 0.1)
    life.sex, ramps = "female", []
    for year in (2024, 2025):
        day = _day(year, 3, 15) + rng.randint(0, 25)
        for _ in range(rng.randint(3, 6)):
            gain = rng.uniform(1.08, 1.13)
            drop = 1 / gain * rng.uniform(0.98, 1.0)
            ramps += [Ramp(day - 18, day - 2, gain), Ramp(day - 1, day, drop)]
            life.said.append((day, "laid", {"count": 2}))
            day += rng.randint(22, 34)
        ramps.append(Ramp(day, day + 60, 1.03))
    life.body_g = ramped(life.body_g, life.first, ramps)
    return life


HEALTHY: tuple[Make, ...] = (
    hatchling_snake,
    juvenile_snake,
    adult_snake,
    fasting_male,
    cooled_snake,
    breeding_snake,
    hatchling_gecko,
    adult_gecko,
    coarse_gecko,
    laying_gecko,
)


def _life(
    rng: random.Random,
    scenario: str,
    species: str,
    born: int,
    first: int,
    body: list[float],
    every: int,
    step_g: float = 0.0,
) -> Life:
    step = step_g or (0.1 if body[0] < 100 else 1.0)
    noise, hatched = rng.uniform(0.01, 0.02), date.fromordinal(born)
    sex = rng.choice(("female", "male", "unknown"))
    return Life(scenario, species, sex, hatched, first, body, noise, step, every)


def _old(rng: random.Random) -> int:
    return START - rng.randint(1500, 3000)


def _day(year: int, month: int, day: int) -> int:
    return date(year, month, day).toordinal()


def _winter(cold: float, warm: float) -> Callable[[int], float]:
    return lambda day: cold if date.fromordinal(day).month in (12, 1, 2) else warm
