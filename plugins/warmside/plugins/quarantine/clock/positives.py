"""Positive results that stand: none is done with before a vet visit is on record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, time

from msgspec import Struct

from warmside.plugins.quarantine.clock.events import Examined, Outcome, Resulted, Sampled
from warmside.plugins.quarantine.protocol.terms import Protocol


class Positive(Struct, frozen=True):
    """A positive result: its event, the day on which it was told, and the title of the test."""

    id: int
    day: date
    test: str

    @property
    def words(self) -> str:
        """The result in words: `faecal examination positive, told 2026-03-20`."""
        return f"{self.test} positive, told {self.day.isoformat()}"


def standing_positives(
    results: Iterable[Resulted],
    samples: Mapping[int, Sampled],
    visits: Iterable[Examined],
    protocol: Protocol,
) -> tuple[Positive, ...]:
    """The positive results since which no vet saw the animal; the protocol names the tests."""
    seen = list(visits)
    return tuple(
        Positive(
            r.id,
            r.day,
            protocol.title_of(samples[r.sample].test) if r.sample in samples else "a test",
        )
        for r in results
        if r.outcome is Outcome.POSITIVE and not any(_after(visit, r) for visit in seen)
    )


def _after(visit: Examined, result: Resulted) -> bool:
    """Whether the visit came after the result; one without a time of day counts for its day."""
    untimed = visit.day == result.day and visit.at.time() == time()
    return untimed or visit.at >= result.at
