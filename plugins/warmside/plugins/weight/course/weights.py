"""One animal's weighings made ready to be judged: doubts set apart, meals taken off."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import dropwhile

from msgspec import Struct, field

from warmside.api import Animal, LifeStage
from warmside.plugins.weight.course.ages import hatched_day
from warmside.plugins.weight.course.pace import SLOWING
from warmside.plugins.weight.course.series import Weighings, less_meals, weighings
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.course.spans import spans
from warmside.plugins.weight.course.typing_errors import (
    Suspicion,
    history_suspicions,
    slipped_events,
)

_BLINK = 1e-6
WINDOW_DAYS = 380
"""What the checks look back upon from the last weighing: a year and two weeks."""


class Rows(Struct):
    """What is read of one animal: days as in `series`, masses in g, marks begun or ended.

    `checked` are the weighings that the keeper called right though they look odd.
    """

    weighed: list[tuple[int, float, float]] = field(default_factory=list)
    meals: list[tuple[float, float]] = field(default_factory=list)
    refused: list[float] = field(default_factory=list)
    laid: list[float] = field(default_factory=list)
    sheds: list[float] = field(default_factory=list)
    cooling: list[tuple[float, bool]] = field(default_factory=list)
    gravid: list[tuple[float, bool]] = field(default_factory=list)
    checked: set[int] = field(default_factory=set)


class Weights(Struct, frozen=True):
    """An animal's weighings, all of those read; `course` holds those that checks may rest on.

    `doubts` are open ones: a weighing that the keeper called right is in none. `early` are
    weighings before hatching. `hatched` is a day, None where it is not known to the month.
    `meals` are (day, mass in g), of mass 0 where it is not on record.
    """

    animal: Animal
    hatched: float | None
    all: Weighings
    doubts: tuple[Suspicion, ...]
    early: Weighings
    sound: Weighings
    course: Course
    meals: tuple[tuple[float, float], ...]
    checked: frozenset[int]

    def mass_of(self, event: int) -> float:
        """The mass in g of one of the weighings."""
        return self.all.masses_g[self.all.events.index(event)]

    def unknown_meal(self, digestion_days: float) -> float | None:
        """The day of a meal of unknown mass that the last weighing may still hold, if any."""
        last = self.sound.days[-1] if len(self.sound) else 0.0
        held = [d for d, mass in self.meals if not mass and 0 <= last - d < digestion_days]
        return held[-1] if held else None

    def day_of(self, event: int) -> float:
        """The day of one of the weighings."""
        return self.all.days[self.all.events.index(event)]


def made_ready(
    animal: Animal,
    rows: Rows,
    digestion_days: float,
    stage: LifeStage | None,
    window_days: float | None = WINDOW_DAYS,
    slowing: float = SLOWING,
) -> Weights:
    """The weighings of the last `window_days` before the last one, or all of them with None.

    `slowing` is how the growth of its kind slows (see `pace`).
    """
    those = weighings(sorted(rows.weighed))
    if window_days is not None and len(those):
        those = those.between(those.days[-1] - window_days, those.days[-1])
    doubts = tuple(
        d for d in history_suspicions(those, rows.laid) if not rows.checked & set(d.events)
    )
    first_day = animal.hatched.earliest.toordinal() if animal.hatched else 0
    early = those.between(0, first_day - _BLINK)
    sound = those[len(early) :].without(slipped_events(doubts))
    meals = tuple(sorted(rows.meals))
    course = Course(
        less_meals(sound, meals, digestion_days),
        stage,
        tuple(sorted(rows.laid)),
        tuple(sorted(rows.sheds)),
        spans(sorted(rows.cooling)),
        spans(_gravid(rows)),
        tuple(day for day, _ in meals),
        tuple(sorted(rows.refused)),
        slowing,
    )
    born = hatched_day(animal.hatched)
    right = frozenset(rows.checked)
    return Weights(animal, born, those, doubts, early, sound, course, meals, right)


def _gravid(rows: Rows) -> Sequence[tuple[float, bool]]:
    """Laying ends it; an end alone says nothing of its begin."""
    marks = sorted((*rows.gravid, *((day, False) for day in rows.laid)))
    return list(dropwhile(lambda mark: not mark[1], marks))
