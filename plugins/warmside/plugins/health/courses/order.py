"""An order of a vet, what was given of it, and the two together."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from msgspec import Struct

from warmside.plugins.health.courses.amount import Amount
from warmside.plugins.health.courses.interval import DAY_HOURS, interval_words

GIVEN, PART, MISSED = "given", "part given", "missed"
REFUSED, VOMITED, STOPPED = "refused", "vomited", "stopped by the vet"
TAKEN_UP = (GIVEN, PART)
MOST_WINDOW_HOURS = 4.0
"""A dose is in time for a quarter of its interval, at most so long, unless the order says it
(common practice, no source)."""


class Order(Struct, frozen=True):
    """What a vet ordered, word for word where it is words; `hours` between doses, 0 for one dose.

    `clock` is the time of the first dose, None where any time of its day will do. `until` is the
    last day, `count` the number of doses; both None: until the vet stops it. `from_last` counts the
    next dose from the last one that was tried, else the plan stands. `at_mass_g` is the mass by
    which the dose was worked out, None where it does not hang on one.
    """

    event: int
    what: str
    dose: str
    hours: int
    start: date
    clock: time | None = None
    until: date | None = None
    count: int | None = None
    from_last: bool = False
    window_hours: float | None = None
    amount: Amount | None = None
    way: str = ""
    food: str = ""
    watch: str = ""
    by: str = ""
    at_mass_g: float | None = None

    @property
    def first(self) -> datetime:
        """The first dose on the wall's clock; midnight where the time is open."""
        return datetime.combine(self.start, self.clock or time())

    @property
    def step(self) -> timedelta:
        """From one dose to the next on the wall's clock, across clock changes too."""
        return timedelta(hours=self.hours)

    @property
    def window(self) -> timedelta:
        """How long after its time a dose is in time; the rest of the day where that is open."""
        if self.clock is None:
            return timedelta(days=1)
        usual = min(MOST_WINDOW_HOURS, (self.hours or DAY_HOURS) / 4)
        return timedelta(hours=usual if self.window_hours is None else self.window_hours)

    @property
    def words(self) -> str:
        """`medicine A, 0.1 ml, by mouth, every 12 hours`."""
        parts = (self.what, self.dose, self.way, interval_words(self.hours))
        return ", ".join(p for p in parts if p)


class Dose(Struct, frozen=True):
    """What was recorded of one dose: `at` on the wall's clock, None where only the day is known.

    `planned` is the dose that it stands for, where the record names it.
    """

    event: int
    day: date
    outcome: str = GIVEN
    at: datetime | None = None
    planned: datetime | None = None

    @property
    def sorted_by(self) -> tuple[date, datetime, int]:
        """The order in which doses are taken; without a time, from that of the planned one."""
        return (self.day, self.at or self.planned or datetime.combine(self.day, time()), self.event)


class Slot(Struct, frozen=True):
    """A dose that the order asks for, on the wall's clock, and what was recorded of it."""

    planned: datetime
    dose: Dose | None = None


class Course(Struct, frozen=True):
    """An order with its doses as far as was asked; `extra` are doses beyond what it asks for.

    `ended` is the first day on which nothing more is due of it: it was stopped, or another order of
    the same medicine took its place.
    """

    order: Order
    slots: tuple[Slot, ...]
    extra: tuple[Dose, ...] = ()
    stopped: Dose | None = None
    replaced: date | None = None

    @property
    def doses(self) -> list[Dose]:
        """What was recorded of it, the oldest first."""
        found = [s.dose for s in self.slots if s.dose]
        return sorted([*found, *self.extra], key=lambda d: d.sorted_by)

    @property
    def last_day(self) -> date | None:
        """The last day on which it asks for anything; None where it is open."""
        if self.stopped is not None:
            return self.stopped.day
        if self.replaced is not None:
            return self.replaced - timedelta(days=1)
        return self.order.until or self._last_counted

    @property
    def _last_counted(self) -> date | None:
        """The day of its last dose where these are counted; from the last dose on once it is given.

        A plan is known to its end, but what counts from the last dose moves with each.
        """
        order, count = self.order, self.order.count if self.order.hours else 1
        if count is None:
            return None
        if not order.from_last:
            return (order.first + order.step * (count - 1)).date()
        taken = [s for s in self.slots if s.dose]
        return taken[-1].dose.day if len(taken) == count and taken[-1].dose else None

    def runs(self, on: date) -> bool:
        """Whether it runs on a day: from its first to its last."""
        last = self.last_day
        return self.order.start <= on and (last is None or on <= last) and not self.is_stopped(on)

    def is_stopped(self, on: date) -> bool:
        """Whether the vet had stopped it by then."""
        return self.stopped is not None and self.stopped.day <= on
