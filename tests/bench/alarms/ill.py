"""Ill animals, each of one of the healthy kinds until its onset; all numbers are assumptions."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import partial

from tests.bench.alarms.bodies import Ramp, ramped, stopped
from tests.bench.alarms.healthy import (
    END,
    Make,
    grown_gecko,
    grown_snake,
    young_gecko,
    young_snake,
)
from tests.bench.alarms.lives import START, Life, Said

LONGEST = 30
"""Weeks that an illness is followed."""


def _onset(rng: random.Random) -> int:
    return START + rng.randint(14, END - START - 7 * (LONGEST - 8))


def wasting(rng: random.Random, week: float, make: Make, refusing: bool, name: str) -> Life:
    """A grown animal that loses so much of its mass a week, eating as before or refusing."""
    life = make(rng)
    onset = _onset(rng)
    end = onset + 7 * LONGEST
    left = (1 - week) ** LONGEST
    life = _with_body(life, ramped(life.body_g, life.first, [Ramp(onset, end, left)]))
    said = [_refused(s) if refusing and s[0] >= onset else s for s in life.said]
    gut = [0.0 if refusing and i + life.first > onset + 6 else g for i, g in enumerate(life.gut_g)]
    return replace(life, scenario=name, said=said, gut_g=gut, onset=onset)


def stalled(rng: random.Random, make: Make, name: str, after: tuple[int, int]) -> Life:
    """A young animal that eats as before and grows no more."""
    life = make(rng)
    onset = max(life.first + rng.randint(*after), START + 7)
    life = _with_body(life, stopped(life.body_g, life.first, onset))
    return replace(life, scenario=name, onset=onset)


def _with_body(life: Life, body: list[float]) -> Life:
    """The animal with another course of mass, its meals and its gut in the same proportion."""
    parts = [new / old for new, old in zip(body, life.body_g, strict=True)]
    gut = [g * part for g, part in zip(life.gut_g, parts, strict=True)]
    said = [_lighter(s, parts[s[0] - life.first]) for s in life.said]
    return replace(life, body_g=body, gut_g=gut, said=said)


def _lighter(said: Said, part: float) -> Said:
    day, kind, data = said
    mass = data.get("mass_g")
    return (day, kind, data | {"mass_g": round(mass * part, 2)}) if mass else said


def noted(rng: random.Random, kind: str, data: dict[str, object], name: str) -> Life:
    """A grown animal of which the keeper writes something down that is serious."""
    life = grown_snake(rng, name)
    life.onset = _onset(rng)
    life.said.append((life.onset, kind, data))
    return life


def positive(rng: random.Random) -> Life:
    """A newcomer in quarantine whose sample comes back positive."""
    life = grown_snake(rng, "positive test")
    life.onset = day = START + 40
    sampled = {"test": "faecal", "method": "", "laboratory": "an invented laboratory"}
    life.said += [(START - 5, "quarantine.started", {"protocol": "general"})]
    life.said += [(day - 10, "quarantine.sampled", sampled)]
    life.said += [(day, "quarantine.resulted", {"outcome": "positive", "sample": "the last"})]
    return life


_SNAKE = partial(grown_snake, scenario="")
_GECKO = partial(grown_gecko, scenario="", step_g=0.1)


def _young(make: object, age: tuple[int, int], kept: int) -> Make:
    def young(rng: random.Random) -> Life:
        born = START - rng.randint(*age)
        return make(rng, "", born, max(START - kept, born + 4))  # type: ignore[operator, no-any-return]

    return young


def _wasting(week: float, make: Make, refusing: bool, name: str) -> Make:
    return partial(wasting, week=week, make=make, refusing=refusing, name=name)


ILL: dict[str, Make] = {
    "loses 1 % a week, eating": _wasting(0.01, _SNAKE, False, "loses 1 % a week, eating"),
    "gecko loses 1 % a week, eating": _wasting(
        0.01, _GECKO, False, "gecko loses 1 % a week, eating"
    ),
    "loses 2 % a week, eating": _wasting(0.02, _SNAKE, False, "loses 2 % a week, eating"),
    "loses 1 % a week, refusing": _wasting(0.01, _SNAKE, True, "loses 1 % a week, refusing"),
    "loses 2 % a week, refusing": _wasting(0.02, _SNAKE, True, "loses 2 % a week, refusing"),
    "hatchling snake stops growing": partial(
        stalled,
        make=_young(young_snake, (0, 10), 0),
        name="hatchling snake stops growing",
        after=(30, 75),
    ),
    "hatchling gecko stops growing": partial(
        stalled,
        make=_young(young_gecko, (0, 10), 0),
        name="hatchling gecko stops growing",
        after=(20, 50),
    ),
    "juvenile snake stops growing": partial(
        stalled,
        make=_young(young_snake, (200, 330), 150),
        name="juvenile snake stops growing",
        after=(170, 260),
    ),
    "positive test": positive,
    "wheezing noted": partial(
        noted,
        kind="observed",
        data={"what": "wheezing, bubbles at mouth"},
        name="wheezing noted",
    ),
    "too hot": partial(noted, kind="climate", data={"warm_c": 47.0}, name="too hot"),
}


def _refused(said: Said) -> Said:
    day, kind, data = said
    return (day, kind, data | {"outcome": "refused"}) if kind == "fed" else said
