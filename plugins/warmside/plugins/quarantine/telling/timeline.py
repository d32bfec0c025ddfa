"""Quarantines as rows of a timeline."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.api import timelines
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.protocol.terms import Cause

ONE_DAY = timedelta(days=1)
SHORT = 0.3  # share of the bar below which a label has no room in a terminal


def timeline_of(rows: Sequence[tuple[str, QuarantineState]], on: date) -> timelines.Timeline:
    """One line a quarantine, from the first start to the last day on which something is due."""
    start = min(s.started for _, s in rows)
    end = max([on, *(_last_day(s) for _, s in rows)])
    drawn = tuple(_row(title, state) for title, state in rows)
    return timelines.Timeline("timeline", "Days gone, days to come", start, end, drawn, on)


def _last_day(state: QuarantineState) -> date:
    if not state.running or state.earliest_release is None:
        return state.as_of
    return max(state.days_over, state.earliest_release)


def _row(title: str, state: QuarantineState) -> timelines.TimelineRow:
    """The days before the last restart, the days that count, and what happened or may happen."""
    return timelines.TimelineRow(title, tuple(_spans(state)), tuple(_moments(state)))


def _spans(state: QuarantineState) -> Iterator[timelines.Span]:
    """Days gone by are strong, days to come weak and called by the end date."""
    if state.clock_start > state.started:
        before = state.clock_start - ONE_DAY
        yield timelines.Span(state.started, before, "before the restart", strong=False)
    coming = state.running and state.as_of < state.days_over and not state.positives
    gone, end = _labels(state) if coming else (_day_words(state), "")
    yield timelines.Span(state.clock_start, state.as_of, gone)
    if coming:
        yield timelines.Span(state.as_of + ONE_DAY, state.days_over, end, strong=False)


def _day_words(state: QuarantineState) -> str:
    if state.positives and state.running:
        return "a positive result stands (no end date)"
    return f"day {state.day} of {state.protocol.days}"


def _labels(state: QuarantineState) -> tuple[str, str]:
    """What stands on the days gone by and on those to come; both on one if the other is short."""
    gone, end = _day_words(state), f"earliest end {state.days_over}"
    both = f"{gone}, {end}"
    part = state.day / state.protocol.days
    if part < SHORT:
        return "", both
    return (both, "") if part > 1 - SHORT else (gone, end)


def _moments(state: QuarantineState) -> Iterator[timelines.Moment]:
    told = {p.day for p in state.positives}
    for restart in state.restarts:
        if restart.cause is Cause.POSITIVE and restart.day in told:
            continue
        yield timelines.Moment(restart.day, "R", "clock started again")
    for progress in state.tests:
        for sample in progress.counted:
            yield timelines.Moment(sample.day, "n", "sample, negative")
    for waiting in state.waiting:
        yield timelines.Moment(waiting.sample.day, "s", "sample, result awaited")
    if state.release is not None:
        yield timelines.Moment(state.release.day, "X", "released")
    if state.died is not None:
        yield timelines.Moment(state.died, "X", "died")
    if not state.running:
        return
    for positive in state.positives:
        yield timelines.Moment(positive.day, "!", "positive result")
    for progress in state.tests:
        if progress.next_sample is not None:
            yield timelines.Moment(progress.next_sample, "+", "next sample possible")
    looks = [r for r in state.rechecks if r.done is None]
    for recheck in (*looks[:1], *looks[-1:]):
        yield timelines.Moment(recheck.day, "m", "look for mites again, next and last")
