"""A simulated animal: its true mass day by day, and what its keeper writes down; all invented."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

START = date(2025, 3, 1).toordinal()
"""The first day that is judged; what is on record before it is history."""
WEEKS = 52
AHEAD = 75
"""Days beyond the last judged one, for what was expected of them."""

Said = tuple[int, str, dict[str, Any]]
"""What the keeper writes down: day, kind of event, data."""

MICE = ((3, "pinky mouse"), (6, "fuzzy mouse"), (11, "hopper mouse"), (18, "weaned mouse"))
PREY = (*MICE, (28, "adult mouse"), (45, "large mouse"), (75, "weaned rat"), (110, "small rat"))


@dataclass
class Life:
    """One animal; `first` is the ordinal of the first value of `body_g` and `gut_g`.

    `noise` is the standard deviation of a reading (scale, bladder) as a part of mass, `step_g` what
    the scale shows. `onset` is the day from which it is ill, if it is.
    """

    scenario: str
    species: str
    sex: str
    hatched: date | None
    first: int
    body_g: list[float]
    noise: float
    step_g: float
    history_every: int
    onset: int | None = None
    gut_g: list[float] = field(default_factory=list)
    said: list[Said] = field(default_factory=list)
    came_by: str = "kept"

    def true_g(self, day: int) -> float:
        """The true mass, gut empty."""
        return self.body_g[day - self.first]

    def reading(self, rng: random.Random, day: int) -> float:
        """What the scale shows, with what is in the gut."""
        gut = self.gut_g[day - self.first] if self.gut_g else 0.0
        shown = (self.true_g(day) + gut) * (1 + rng.gauss(0, self.noise))
        return max(round(shown / self.step_g), 1) * self.step_g


@dataclass(frozen=True, slots=True)
class Menu:
    """How it is fed: every so many days (give or take), a part of its mass, days to digest.

    `insect` is what is offered to an insect eater; the keeper notes its mass or does not.
    """

    every: int
    sway: int
    part: float
    digest: float
    insect: str = ""
    mass_noted: bool = True


def feed(
    rng: random.Random, life: Life, menu: Menu, refusing: Callable[[int], float], last: int
) -> None:
    """Offer meals from the first day to the last; `refusing` is the chance that it refuses."""
    life.gut_g = [0.0] * len(life.body_g)
    day = life.first + rng.randrange(menu.every)
    while day < last:
        mass = life.true_g(day) * menu.part * rng.uniform(0.8, 1.15)
        taken = rng.random() >= refusing(day)
        life.said.append((day, "fed", _meal(menu, mass, taken)))
        if taken:
            _into_the_gut(life, day, mass, menu.digest)
        day += max(menu.every + rng.randint(-menu.sway, menu.sway), 1)


def _into_the_gut(life: Life, day: int, mass: float, digest: float) -> None:
    """A meal weighs from the next day on: the keeper weighs before feeding."""
    for ahead in range(1, int(digest) + 1):
        if day + ahead - life.first < len(life.gut_g):
            life.gut_g[day + ahead - life.first] += mass * (1 - ahead / digest)


def _meal(menu: Menu, mass: float, taken: bool) -> dict[str, Any]:
    outcome = "taken" if taken else "refused"
    if menu.insect:
        count, form, item = max(round(mass / 0.4), 1), "insect", menu.insect
    else:
        count, form = 1, "thawed"
        item = next((name for most, name in PREY if mass < most), "medium rat")
    noted = round(mass, 2) if menu.mass_noted else None
    return {"item": item, "count": count, "mass_g": noted, "form": form, "outcome": outcome}


def shed(
    rng: random.Random, life: Life, every: float, last: int, *, winter: bool, noted: float
) -> list[int]:
    """Sheds from the first day to the last, the mass that a slough takes, and what is noted.

    `noted` is the chance that one is written down; with `winter` False those due in winter come
    late.
    """
    days, day = [], life.first + rng.randrange(int(every))
    while day < last:
        while not winter and date.fromordinal(day).month in (12, 1, 2):
            day += rng.randint(1, 30)
        days.append(day)
        if rng.random() < noted:
            if rng.random() < 0.6:
                life.said.append((day - rng.randint(5, 7), "shedding", {"stage": "opaque"}))
            life.said.append((day, "shed", {"outcome": "one piece"}))
        day += max(round(every * rng.lognormvariate(0, 0.15)), 12)
    _sloughs(life, days)
    return days


def _sloughs(life: Life, days: Sequence[int]) -> None:
    """A slough of 1.5 % of the mass, made up again until the next shed."""
    for day in days:
        for ahead in range(30):
            if 0 <= day + ahead - life.first < len(life.body_g):
                life.body_g[day + ahead - life.first] *= 1 - 0.015 * (1 - ahead / 30)


def near(days: Sequence[int], before: int, after: int, chance: float, else_: float) -> Any:
    """A chance of refusing that is high about some days."""
    close = {d + k for d in days for k in range(-before, after + 1)}
    return lambda day: chance if day in close else else_
