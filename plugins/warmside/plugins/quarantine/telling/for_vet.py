"""A quarantine in few words for a vet: where it stands, what was tested, what is awaited."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import Section, Words, sheets
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.telling.wording import standing


def section(states: Sequence[QuarantineState]) -> Iterator[Section]:
    """The newest quarantine; nothing where there was none."""
    if states:
        state = states[-1]
        told = f"{state.protocol.title} since {state.clock_start}: {standing(state)}"
        tests = "; ".join(_tests(state))
        words = (Words(told), *((Words(tests),) if tests else ()))
        yield Section("Quarantine", words, sheets.Place.CONTACTS)


def _tests(state: QuarantineState) -> Iterator[str]:
    for progress in (p for p in state.tests if p.test.negatives or p.counted or p.awaited):
        awaited = f", {len(progress.awaited)} awaited" if progress.awaited else ""
        done = f"{len(progress.counted)} of {progress.test.negatives} negative{awaited}"
        yield f"{progress.test.title}: {done}"
    for positive in (*state.positives, *state.late_positives):
        yield f"POSITIVE: {positive.words}"
