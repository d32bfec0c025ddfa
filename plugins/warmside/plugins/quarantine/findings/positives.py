"""Positive results: a vet at once, until the visit is on record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import About, Animal, Basis, Finding, Level, Mark, Source
from warmside.plugins.quarantine.clock.positives import Positive
from warmside.plugins.quarantine.clock.state import QuarantineState

FOR_A_VET = Source("a positive is for a reptile vet to judge", Mark.COMMON_PRACTICE)


def positive_findings(courses: Iterable[tuple[Animal, QuarantineState]]) -> Iterator[Finding]:
    """A finding for each positive result since which no vet saw the animal; each is said once."""
    said: set[int] = set()
    for animal, state in courses:
        for code, when, positives in (
            ("quarantine.positive", "", state.positives),
            ("quarantine.late_positive", ", after its release", state.late_positives),
        ):
            for positive in positives:
                if positive.id not in said:
                    yield _found(code, animal, positive, when)
                said.add(positive.id)


def _found(code: str, animal: Animal, positive: Positive, when: str) -> Finding:
    words = (
        f"{positive.words}{when}: keep it apart and ask a reptile vet today; "
        f"record the visit: warmside record examined {animal.code} --told WORDS"
    )
    basis = Basis("stands until a vet visit is on record", FOR_A_VET, (positive.id,))
    return Finding(code, Level.ACT_NOW, words, basis, About(animal.id))
