"""Appointments of one animal, and those that are still to come or to be told of."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, time, timedelta

from msgspec import Struct

MOVED_FORWARD = timedelta(days=3)
"""A visit so shortly before the day was the appointment, moved forward (common practice, no
source)."""
LATE_RECHECK = timedelta(days=14)
"""An appointment so long after a recheck was due is that recheck (common practice, no source)."""


class Appointment(Struct, frozen=True):
    """What was agreed with a vet, or that it is off; `clock` is None where none is known."""

    event: int
    day: date
    due: date
    clock: time | None = None
    by: str = ""
    what: str = ""
    cancelled: bool = False

    @property
    def words(self) -> str:
        """`vet appointment at 10:30, Dr. Reed: the eye again`."""
        at = f" at {self.clock:%H:%M}" if self.clock else ""
        by = f", {self.by}" if self.by else ""
        return f"vet appointment{at}{by}{f': {self.what}' if self.what else ''}"


class Visit(Struct, frozen=True):
    """That a vet saw the animal: the event that says so, and its day."""

    event: int
    day: date


def pending(said: Sequence[Appointment], visits: Sequence[Visit]) -> list[Appointment]:
    """The appointments that are neither off nor over, in the order of their days.

    A newer word on the same day takes the place of the older. A visit of that day or later ends it,
    and one of the few days before that was written down after it.
    """
    newest = {a.due: a for a in sorted(said, key=lambda a: (a.day, a.event))}
    open_ones = (a for a in newest.values() if not a.cancelled)
    return sorted(
        (a for a in open_ones if not any(_ends(a, visit) for visit in visits)),
        key=lambda a: (a.due, a.clock or time(), a.event),
    )


def stands_for(made: Sequence[Appointment], recheck: date) -> bool:
    """Whether one of these is the recheck that a vet named: on its day or in the weeks after."""
    return any(recheck <= a.due <= recheck + LATE_RECHECK for a in made)


def _ends(one: Appointment, visit: Visit) -> bool:
    if visit.day >= one.due:
        return True
    return visit.event > one.event and visit.day >= one.due - MOVED_FORWARD
