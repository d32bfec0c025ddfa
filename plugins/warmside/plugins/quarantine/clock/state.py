"""One quarantine on a day: where its clock stands, and what its release waits for."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.quarantine.clock.checks import CheckDue, Recheck
from warmside.plugins.quarantine.clock.events import Released, Sampled
from warmside.plugins.quarantine.clock.missing import Missing
from warmside.plugins.quarantine.clock.negatives import Progress
from warmside.plugins.quarantine.clock.restarts import Restart
from warmside.plugins.quarantine.protocol.terms import Protocol


class Waiting(Struct, frozen=True):
    """A sample without result; `too_long` beyond the protocol's days of waiting."""

    sample: Sampled
    days: int
    too_long: bool


class QuarantineState(Struct, frozen=True):
    """One quarantine on a day: `as_of`, or the day of its release if that came before.

    `missing` is what release waits for, or waited for when it was released. `late_positives` are
    event ids of positive results told after the release. `problems` are events that cannot be
    counted, in words.
    """

    protocol: Protocol
    started: date
    start_event: int
    cause: str
    restarts: tuple[Restart, ...]
    clock_start: date
    as_of: date
    tests: tuple[Progress, ...]
    waiting: tuple[Waiting, ...]
    checks: tuple[CheckDue, ...]
    rechecks: tuple[Recheck, ...]
    missing: tuple[Missing, ...]
    release: Released | None
    late_positives: tuple[int, ...]
    problems: tuple[str, ...]

    @property
    def day(self) -> int:
        """Days since the clock started."""
        return (self.as_of - self.clock_start).days

    @property
    def earliest_end(self) -> date:
        """The day on which the days are over."""
        return self.clock_start + timedelta(days=self.protocol.days)

    @property
    def earliest_release(self) -> date:
        """The first day on which nothing need be missing; the last sample's result comes later."""
        return max([self.as_of, *(m.possible_on for m in self.missing)])

    @property
    def running(self) -> bool:
        """Whether it has not been released."""
        return self.release is None

    @property
    def ready(self) -> bool:
        """Whether nothing is missing for release; it never means that the animal is healthy."""
        return not self.missing

    @property
    def overridden(self) -> bool:
        """Whether it was released while something was missing."""
        return self.release is not None and not self.ready


def next_recheck(state: QuarantineState) -> Recheck | None:
    """The first look for mites after a sighting that is not done."""
    return next((r for r in state.rechecks if r.done is None), None)


def due_recheck(state: QuarantineState, on: date) -> Recheck | None:
    """The newest look for mites that is due; done clean, it settles those before it too."""
    return next((r for r in reversed(state.rechecks) if r.done is None and r.day <= on), None)


def next_check(state: QuarantineState) -> date:
    """The day of the next check or look for mites."""
    again = next_recheck(state)
    return min([c.due for c in state.checks] + ([again.day] if again else []), default=state.as_of)
