"""An open case at the head of the round."""

from __future__ import annotations

from warmside.api import OWN_RECORDS, About, Basis, Event, Finding, Level
from warmside.plugins.health.cases.course_of_case import Case
from warmside.plugins.health.kinds import CASE


def open_case(animal: int, code: str, case: Case, visit: Event | None) -> Finding:
    """An open case: since when, how it began, the newest entry or visit, what is awaited."""
    first, last = case.entries[0], case.entries[-1]
    words = [f"case since {case.begun}, {first.what}"]
    words += [f"on {last.day}, {last.what}"] if last is not first else []
    words += [f"on {visit.day} the vet said: {visit.data['told']}"] if visit else []
    words += [f"waiting for {case.awaited}"] if case.awaited else []
    end = f'warmside record {CASE} {code} --state closed --what "how it ended"'
    told = f"{'; '.join(words)}: a vet if it grows worse. It stays here until: {end}"
    basis = Basis("a case that is not closed", OWN_RECORDS, tuple(e.event for e in case.entries))
    return Finding("health.case", Level.LOOK_SOON, told, basis, About(animal))
