"""Quarantines as rows of a timeline."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.api import timelines
from warmside.plugins.quarantine.clock.state import QuarantineState


def timeline_of(rows: Sequence[tuple[str, QuarantineState]], on: date) -> timelines.Timeline:
    """One line a quarantine, from the first start to the last day on which something is due."""
    start = min(s.started for _, s in rows)
    ends = [s.as_of if s.release else max(s.earliest_end, s.earliest_release) for _, s in rows]
    drawn = tuple(_row(title, state) for title, state in rows)
    return timelines.Timeline("timeline", "Quarantine", start, max([on, *ends]), drawn, on)


def _row(title: str, state: QuarantineState) -> timelines.TimelineRow:
    """The days before the last restart, the days that count, and what happened or may happen."""
    return timelines.TimelineRow(title, tuple(_spans(state)), tuple(_moments(state)))


def _spans(state: QuarantineState) -> Iterator[timelines.Span]:
    if state.clock_start > state.started:
        before = state.clock_start - timedelta(days=1)
        yield timelines.Span(state.started, before, "before the restart", strong=False)
    end = state.release.day if state.release else state.earliest_end
    label = f"day {state.day} of {state.protocol.days}"
    yield timelines.Span(state.clock_start, max(end, state.clock_start), label)


def _moments(state: QuarantineState) -> Iterator[timelines.Moment]:
    for restart in state.restarts:
        yield timelines.Moment(restart.day, "R", "clock started again")
    for progress in state.tests:
        for sample in progress.counted:
            yield timelines.Moment(sample.day, "n", "sample, negative")
    for waiting in state.waiting:
        yield timelines.Moment(waiting.sample.day, "s", "sample, result awaited")
    if state.release is not None:
        yield timelines.Moment(state.release.day, "X", "released")
        return
    for progress in state.tests:
        if progress.next_sample is not None:
            yield timelines.Moment(progress.next_sample, "+", "next sample possible")
    for recheck in state.rechecks:
        if recheck.done is None:
            yield timelines.Moment(recheck.day, "m", "look for mites again")
