"""What is still missing for release under the protocol, and when each part becomes possible."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct

from warmside.plugins.quarantine.clock.checks import CheckDue, Recheck
from warmside.plugins.quarantine.clock.negatives import Progress
from warmside.plugins.quarantine.clock.positives import Positive
from warmside.plugins.quarantine.clock.restarts import MITES


class Missing(Struct, frozen=True):
    """One thing that release waits for.

    `what` is `treatment`, `positive`, `days`, `tests.<name>`, `checks.<name>` or `rechecks`;
    `possible_on` the first day on which it can be settled (for a test: on which its last sample can
    be taken), None where nobody can say; `next_on` the day of the next step toward it.
    """

    what: str
    words: str
    next_on: date
    possible_on: date | None


def missing_days(earliest_end: date, today: date) -> list[Missing]:
    """The days still to run; none from the earliest end on."""
    left = (earliest_end - today).days
    if left <= 0:
        return []
    words = f"{left} more {'day' if left == 1 else 'days'}, until {earliest_end.isoformat()}"
    return [Missing("days", words, earliest_end, earliest_end)]


def missing_visits(positives: Iterable[Positive], today: date) -> list[Missing]:
    """A vet's word on each positive result that stands."""
    return [
        Missing("positive", f"{p.words}: no vet has seen the animal since", today, None)
        for p in positives
    ]


def missing_end_of(treatments: Iterable[str], today: date) -> list[Missing]:
    """The end of each treatment, in its words; nobody can say when the vet closes it."""
    return [Missing("treatment", words, today, None) for words in treatments]


def missing_tests(tests: Iterable[Progress], today: date) -> list[Missing]:
    """The negatives still wanted, test by test."""
    return [_missing_test(p, today) for p in tests if p.missing]


def missing_checks(checks: Iterable[CheckDue], today: date, up_to_date: bool) -> list[Missing]:
    """Checks that last found something, and overdue ones if the protocol wants none overdue.

    A mite sighting has its own rechecks and is not listed here.
    """
    found = []
    for due in checks:
        title, key = due.check.title, f"checks.{due.check.name}"
        if due.last is not None and due.last.found and due.check.name != MITES:
            words = f"{title}: something was found on {due.last.day.isoformat()}, ask a vet"
            found.append(Missing(key, words, today, today))
        elif up_to_date and due.overdue_days:
            found.append(Missing(key, f"{title}: due since {due.due.isoformat()}", today, today))
    return found


def missing_rechecks(rechecks: Iterable[Recheck], today: date) -> list[Missing]:
    """A clean look at the end of the mites' cycle, and the next look before it."""
    open_days = [r.day for r in rechecks if r.done is None]
    if not open_days:
        return []
    nearest = max(today, min(open_days))
    words = f"no mites seen up to the look on {open_days[-1].isoformat()}"
    return [Missing("rechecks", words, nearest, max(today, open_days[-1]))]


def _missing_test(p: Progress, today: date) -> Missing:
    said = f"{p.test.title}: {len(p.counted)} of {p.test.negatives} negative"
    if p.awaited:
        days = ", ".join(s.day.isoformat() for s in p.awaited)
        said += f", result awaited, sampled {days}"
    if p.next_sample is None or p.last_sample is None:
        return Missing(f"tests.{p.test.name}", said, today, today)
    said += f", next sample from {p.next_sample.isoformat()}"
    return Missing(f"tests.{p.test.name}", said, p.next_sample, p.last_sample)
