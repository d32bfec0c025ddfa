"""One animal's weighings made ready to be judged: doubts set apart, meals taken off."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import dropwhile

from msgspec import Struct, field

from warmside.api import Animal, LifeStage
from warmside.plugins.weight.course.ages import hatched_day
from warmside.plugins.weight.course.local_fit import LocalFit
from warmside.plugins.weight.course.pace import SLOWING
from warmside.plugins.weight.course.series import Weighings, less_meals, weighings
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.course.spans import spans
from warmside.plugins.weight.course.trend import fit_at_last
from warmside.plugins.weight.slips.in_history import history_suspicions
from warmside.plugins.weight.slips.suspicion import Suspicion, slipped_events

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
    `meals` are (day, mass in g), of mass 0 where it is not on record. `fit` is how `course` runs.
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
    fit: LocalFit | None

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


class Clean(Struct, frozen=True):
    """What rests on an animal's rows alone, so that it can be kept across runs.

    `early` counts the weighings before hatching, the first of `all`; `less_meals` are those after
    it, but suspected slips, less undigested meals, `fit` how they run. The rest is as in `Rows`,
    in order of day.
    """

    all: Weighings
    doubts: tuple[Suspicion, ...]
    early: int
    less_meals: Weighings
    meals: tuple[tuple[float, float], ...]
    refused: tuple[float, ...]
    laid: tuple[float, ...]
    sheds: tuple[float, ...]
    cooling: tuple[tuple[float, bool], ...]
    gravid: tuple[tuple[float, bool], ...]
    checked: frozenset[int]
    fit: LocalFit | None


def cleaned(
    rows: Rows,
    hatched: float,
    digestion_days: float,
    window_days: float | None = WINDOW_DAYS,
) -> Clean:
    """The weighings of the last `window_days` before the last one, or all of them with None.

    `hatched` is the first day on which it may have hatched, 0 where that is not known.
    """
    those = weighings(sorted(rows.weighed))
    if window_days is not None and len(those):
        those = those.between(those.days[-1] - window_days, those.days[-1])
    doubts = tuple(
        d for d in history_suspicions(those, rows.laid) if not rows.checked & set(d.events)
    )
    early = len(those.between(0, hatched - _BLINK))
    meals, laid = tuple(sorted(rows.meals)), tuple(sorted(rows.laid))
    less = less_meals(_sound(those, early, doubts), meals, digestion_days)
    return Clean(
        those,
        doubts,
        early,
        less,
        meals,
        tuple(sorted(rows.refused)),
        laid,
        tuple(sorted(rows.sheds)),
        tuple(sorted(rows.cooling)),
        tuple(sorted(rows.gravid)),
        frozenset(rows.checked),
        fit_at_last(less, laid),
    )


def made_ready(
    animal: Animal, clean: Clean, stage: LifeStage | None, slowing: float = SLOWING
) -> Weights:
    """What checks rest on; `slowing` is how the growth of its kind slows (see `pace`)."""
    course = Course(
        clean.less_meals,
        stage,
        clean.laid,
        clean.sheds,
        spans(clean.cooling),
        spans(_gravid(clean)),
        tuple(day for day, _ in clean.meals),
        clean.refused,
        slowing,
    )
    return Weights(
        animal,
        hatched_day(animal.hatched),
        clean.all,
        clean.doubts,
        clean.all[: clean.early],
        _sound(clean.all, clean.early, clean.doubts),
        course,
        clean.meals,
        clean.checked,
        clean.fit,
    )


def first_day(animal: Animal) -> float:
    """The first day on which it may have hatched, 0 where that is not known."""
    return float(animal.hatched.earliest.toordinal()) if animal.hatched else 0.0


def _sound(those: Weighings, early: int, doubts: Sequence[Suspicion]) -> Weighings:
    return those[early:].without(slipped_events(doubts))


def _gravid(clean: Clean) -> Sequence[tuple[float, bool]]:
    """Laying ends it; an end alone says nothing of its begin."""
    if not clean.gravid:
        return ()
    marks = sorted((*clean.gravid, *((day, False) for day in clean.laid)))
    return list(dropwhile(lambda mark: not mark[1], marks))
