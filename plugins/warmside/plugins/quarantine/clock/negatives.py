"""Which negative results count toward release: the right method, after the clock, well spaced."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.quarantine.clock.events import Outcome, Resulted, Sampled
from warmside.plugins.quarantine.protocol.terms import TestWanted


class Progress(Struct, frozen=True):
    """How far one test is: samples counted as negatives, those awaited, and the next one.

    `next_sample` is the first day on which a further sample counts, today at the earliest;
    `possible_since` the same without today; `last_sample` the day on which the last one still
    wanted can be taken, if those awaited come back negative. All None when none is wanted.
    """

    test: TestWanted
    counted: tuple[Sampled, ...]
    awaited: tuple[Sampled, ...]
    next_sample: date | None
    last_sample: date | None
    possible_since: date | None

    @property
    def missing(self) -> int:
        """Negatives still wanted."""
        return max(0, self.test.negatives - len(self.counted))


def progress(
    test: TestWanted,
    samples: Iterable[Sampled],
    outcomes: Mapping[int, frozenset[Outcome]],
    first_day: date,
    today: date,
) -> Progress:
    """The state of one test; only samples from `first_day` on count.

    Two negatives nearer than the spacing count once: the earliest counts, then the next one that
    is far enough from it, which is the most that can be counted.
    """
    usable = [
        s for s in samples if s.test == test.name and test.accepts(s.method) and s.day >= first_day
    ]
    negative = [s for s in usable if outcomes.get(s.id) == frozenset({Outcome.NEGATIVE})]
    awaited = [s for s in usable if not outcomes.get(s.id)]
    counted = _spaced(negative, test.spacing_days)
    hoped = _spaced([*negative, *awaited], test.spacing_days)
    still = test.negatives - max(len(counted), len(hoped))
    if still <= 0:
        return Progress(test, counted, tuple(awaited), None, None, None)
    spacing = timedelta(days=test.spacing_days)
    taken = [s.day + spacing for s in (*counted, *hoped)]
    possible = max([first_day, *taken])
    start = max(today, possible)
    last = start + (still - 1) * spacing
    return Progress(test, counted, tuple(awaited), start, last, possible)


def outcomes_by_sample(
    results: Iterable[Resulted], samples: Mapping[int, Sampled]
) -> dict[int, frozenset[Outcome]]:
    """Every outcome told for each sample; a result dated before its sample is left out."""
    told: dict[int, frozenset[Outcome]] = {}
    for result in results:
        sample = samples.get(result.sample)
        if sample is not None and result.day >= sample.day:
            told[sample.id] = told.get(sample.id, frozenset()) | {result.outcome}
    return told


def _spaced(samples: Iterable[Sampled], spacing_days: int) -> tuple[Sampled, ...]:
    kept: list[Sampled] = []
    for sample in sorted(samples, key=lambda s: (s.day, s.id)):
        if not kept or (sample.day - kept[-1].day).days >= spacing_days:
            kept.append(sample)
    return tuple(kept)
