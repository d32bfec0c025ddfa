"""When each check is due again, and the looks for mites after a sighting."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.quarantine.clock.events import Checked
from warmside.plugins.quarantine.clock.restarts import MITES
from warmside.plugins.quarantine.protocol.mites import Rechecks, recheck_days
from warmside.plugins.quarantine.protocol.terms import CheckWanted


class CheckDue(Struct, frozen=True):
    """A check of the protocol: when it was last done, when it is due, days overdue (0 if not)."""

    check: CheckWanted
    last: Checked | None
    due: date
    overdue_days: int


class Recheck(Struct, frozen=True):
    """A look for mites after a sighting; `done` is the clean check that settled it."""

    day: date
    sighting: int
    done: int | None
    overdue: bool


def checks_due(
    wanted: Iterable[CheckWanted], done: Iterable[Checked], started: date, today: date
) -> tuple[CheckDue, ...]:
    """Each check with its next day: on the day of the start, then every few days after the last."""
    record = list(done)
    return tuple(_due(check, record, started, today) for check in wanted)


def rechecks(done: Iterable[Checked], cycle: Rechecks, today: date) -> tuple[Recheck, ...]:
    """The looks after the latest sighting; a clean look on a day or later settles that day."""
    looks = sorted((c for c in done if c.check == MITES), key=lambda c: (c.at, c.id))
    sightings = [c for c in looks if c.found]
    if not sightings:
        return ()
    last = sightings[-1]
    clean = [c for c in looks if not c.found and c.day > last.day]
    return tuple(_recheck(day, last, clean, today) for day in recheck_days(last.day, cycle))


def _due(check: CheckWanted, record: list[Checked], started: date, today: date) -> CheckDue:
    mine = [c for c in record if c.check == check.name]
    last = max(mine, key=lambda c: (c.at, c.id), default=None)
    due = started if last is None else last.day + timedelta(days=check.every_days)
    return CheckDue(check, last, due, max(0, (today - due).days))


def _recheck(day: date, sighting: Checked, clean: list[Checked], today: date) -> Recheck:
    done = next((c.id for c in clean if c.day >= day), None)
    return Recheck(day, sighting.id, done, overdue=done is None and today > day)
