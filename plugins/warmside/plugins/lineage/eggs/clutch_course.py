"""How many eggs of a clutch are left, when they are to hatch, and when to look at them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from math import ceil, floor

from msgspec import Struct

from warmside.api import Basis, DayRange
from warmside.plugins.lineage.season.figures import SeasonFigures

FIRST_LOOK_DAYS = 7  # candled at 7 to 10 days; common practice, no source
LOOK_LEEWAY_DAYS = 3
FORGOTTEN_DAYS = 300


class Look(Struct, frozen=True):
    """A look at the eggs: how many good ones were left, None where that was not said."""

    day: date
    good: int | None
    event: int = 0


class Hatch(Struct, frozen=True):
    """Young that hatched on a day."""

    day: date
    count: int
    event: int = 0


class Eggs(Struct, frozen=True):
    """A clutch of eggs: laid, counted, looked at, hatched so far. None is what is not known.

    `kept_c` is the incubation temperature in °C.
    """

    laid: date | None
    total: int | None
    good: int | None
    looks: tuple[Look, ...] = ()
    hatches: tuple[Hatch, ...] = ()
    kept_c: float | None = None

    @property
    def hatched(self) -> int:
        """How many young hatched so far."""
        return sum(h.count for h in self.hatches)

    @property
    def left(self) -> int | None:
        """How many may still hatch; None where no count is on record."""
        counted = [look for look in self.looks if look.good is not None]
        start = counted[-1] if counted else None
        base = start.good if start else self.good if self.good is not None else self.total
        if base is None:
            return None
        since = [h.count for h in self.hatches if start is None or h.day > start.day]
        return max(0, base - sum(since))

    def open(self, on: date) -> bool:
        """Whether eggs are still awaited; those that nobody told of for long are not."""
        if self.laid is None or (on - self.laid).days > FORGOTTEN_DAYS:
            return False
        return not self.hatches if self.left is None else self.left > 0


def misfits(eggs: Eggs) -> int | None:
    """Slugs and misshapen eggs at laying: those that were not good."""
    return None if eggs.total is None or eggs.good is None else eggs.total - eggs.good


def hatch_window(eggs: Eggs, figures: SeasonFigures | None) -> DayRange | None:
    """Between which days the eggs are to hatch; None where that is not known."""
    span = figures.incubation if figures else None
    if eggs.laid is None or span is None or figures is None:
        return None
    mean = figures.incubation_mean
    likely = eggs.laid + timedelta(days=round(mean)) if mean else None
    rule = f"{span.low:g} to {span.high:g} days after laying on {eggs.laid}"
    return DayRange(
        eggs.laid + timedelta(days=floor(span.low)),
        eggs.laid + timedelta(days=ceil(span.high)),
        Basis(rule, span.source),
        likely if likely and span.low <= (mean or 0) <= span.high else None,
    )


def next_look(eggs: Eggs, every_days: int, on: date) -> date | None:
    """When the eggs are to be looked at next; None where none is left or asked for."""
    if not eggs.open(on) or not every_days or eggs.laid is None:
        return None
    last = max((look.day for look in eggs.looks), default=None)
    if last is None:
        return eggs.laid + timedelta(days=FIRST_LOOK_DAYS)
    return last + timedelta(days=every_days)


def own_days(clutches: Iterable[Eggs]) -> Sequence[int]:
    """How many days the keeper's own clutches took, from laying to the first young, in order."""
    taken = ((e.laid, e.hatches) for e in clutches)
    return sorted((min(h.day for h in all) - laid).days for laid, all in taken if laid and all)
