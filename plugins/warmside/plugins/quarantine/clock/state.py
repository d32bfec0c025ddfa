"""One quarantine on a day: where its clock stands, and what its release waits for."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.quarantine.clock.checks import CheckDue, Recheck
from warmside.plugins.quarantine.clock.events import Released, Sampled
from warmside.plugins.quarantine.clock.missing import Missing
from warmside.plugins.quarantine.clock.negatives import Progress
from warmside.plugins.quarantine.clock.positives import Positive
from warmside.plugins.quarantine.clock.restarts import Restart
from warmside.plugins.quarantine.protocol.terms import Protocol


class Waiting(Struct, frozen=True):
    """A sample without result; `too_long` beyond the protocol's days of waiting."""

    sample: Sampled
    days: int
    too_long: bool


class QuarantineState(Struct, frozen=True):
    """One quarantine on a day: `as_of`, or the day of its end if that came before.

    `missing` is what release waits for, or waited for when it was released. `positives` are the
    results since which no vet saw the animal, `late_positives` those of them that were told after
    the release. `died` is the day on which the animal died in it. `problems` are events that cannot
    be counted, in words.
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
    died: date | None
    positives: tuple[Positive, ...]
    late_positives: tuple[Positive, ...]
    problems: tuple[str, ...]

    @property
    def day(self) -> int:
        """Days since the clock started."""
        return (self.as_of - self.clock_start).days

    @property
    def days_over(self) -> date:
        """The day on which the days of the protocol are over, whatever else stands in the way."""
        return self.clock_start + timedelta(days=self.protocol.days)

    @property
    def earliest_end(self) -> date | None:
        """The day on which the days are over; none while a positive result stands."""
        return None if self.positives else self.days_over

    @property
    def days_left(self) -> int | None:
        """Days to the earliest end; none while a positive result stands."""
        return None if self.positives else max(0, (self.days_over - self.as_of).days)

    @property
    def earliest_release(self) -> date | None:
        """The first day on which nothing need be missing; the last sample's result comes later.

        None while a positive result stands.
        """
        possible = [m.possible_on for m in self.missing]
        known = [day for day in possible if day is not None]
        return max([self.as_of, *known]) if len(known) == len(possible) else None

    @property
    def running(self) -> bool:
        """Whether the animal lives and has not been released."""
        return self.release is None and self.died is None

    @property
    def ready(self) -> bool:
        """Whether nothing is missing for release; it never means that the animal is healthy."""
        return not self.missing

    @property
    def suspect(self) -> bool:
        """Whether a positive result stands, or mites were seen and are still looked for."""
        return bool(self.positives) or next_recheck(self) is not None

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
