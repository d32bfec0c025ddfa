"""Quarantines as parts of an answer: the timeline, where each stands, what is missing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from warmside.api import (
    Basis,
    Cell,
    Column,
    Fact,
    Kind,
    Part,
    Section,
    Table,
    Timeline,
    Tone,
    Unit,
    Words,
    paragraphs,
)
from warmside.plugins.quarantine.drawing import timeline_row
from warmside.plugins.quarantine.protocol import cautions
from warmside.plugins.quarantine.tasks import next_recheck
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.wording import DEFER, standing

QUARANTINE_COLUMNS = (
    Column("animal", "animal", Kind.CODE),
    Column("protocol", "protocol"),
    Column("day", "day", Unit.COUNT),
    Column("days", "of", Unit.COUNT),
    Column("earliest_end", "earliest end", Kind.DATE),
    Column("next_check", "next check", Kind.DATE),
    Column("waits_for", "still missing"),
    Column("missing", "still missing", Kind.LIST, text=False),
    Column("days_left", "days left", Unit.COUNT, text=False),
    Column("started", "started", Kind.DATE, text=False),
    Column("clock_start", "clock started", Kind.DATE, text=False),
    Column("earliest_release", "earliest release", Kind.DATE, text=False),
    Column("ready", "nothing missing", Kind.YESNO, text=False),
    Column("cause", "cause", text=False),
    Column("group", "group", text=False),
)
MISSING_COLUMNS = (
    Column("words", "still missing"),
    Column("next_on", "next step from", Kind.DATE),
    Column("possible_on", "possible on", Kind.DATE),
    Column("what", "what", text=False),
)
RESTART_COLUMNS = (
    Column("day", "day", Kind.DATE),
    Column("words", "why the clock started again"),
    Column("cause", "cause", text=False),
    Column("event", "event", Unit.COUNT),
)
TEST_COLUMNS = (
    Column("test", "test"),
    Column("negative", "negative", Unit.COUNT),
    Column("wanted", "wanted", Unit.COUNT),
    Column("awaited", "result awaited", Unit.COUNT),
    Column("next_sample", "next sample from", Kind.DATE),
)
CHECK_COLUMNS = (
    Column("check", "check"),
    Column("last", "last", Kind.DATE),
    Column("due", "next", Kind.DATE),
    Column("overdue", "days overdue", Unit.COUNT),
)


def deferring(states: Iterable[QuarantineState]) -> tuple[Words, ...]:
    """What every quarantine screen says: the protocols' own cautions, and whose word counts."""
    said = [c for s in states for c in cautions(s.protocol)]
    return paragraphs(*dict.fromkeys([*said, DEFER]), tone=Tone.CAUTION)


def timeline_of(rows: Sequence[tuple[str, QuarantineState]], on: date) -> Timeline:
    """One line a quarantine, from the first start to the last day on which something is due."""
    start = min(s.started for _, s in rows)
    ends = [s.as_of if s.release else max(s.earliest_end, s.earliest_release) for _, s in rows]
    drawn = tuple(timeline_row(title, state) for title, state in rows)
    return Timeline("timeline", "Quarantine", start, max([on, *ends]), drawn, on)


def next_check(state: QuarantineState) -> date:
    """The day of the next check or look for mites."""
    again = next_recheck(state)
    return min([c.due for c in state.checks] + ([again.day] if again else []), default=state.as_of)


def quarantines_table(rows: Iterable[tuple[str, QuarantineState]]) -> Table:
    """Where each quarantine stands, a row each."""
    cells = tuple(_row(code, state) for code, state in rows)
    return Table("quarantines", QUARANTINE_COLUMNS, cells, empty="no animal is in quarantine")


def _row(code: str, s: QuarantineState) -> tuple[Cell, ...]:
    return (
        code,
        s.protocol.name,
        s.day,
        s.protocol.days,
        s.earliest_end,
        next_check(s),
        "; ".join(m.words for m in s.missing) or None,
        tuple(m.words for m in s.missing),
        max(0, (s.earliest_end - s.as_of).days),
        s.started,
        s.clock_start,
        s.earliest_release,
        s.ready,
        s.cause,
        s.protocol.group,
    )


def facts_of(state: QuarantineState) -> tuple[Fact, ...]:
    """The figures of one running quarantine."""
    p = state.protocol
    left = max(0, (state.earliest_end - state.as_of).days)
    days = Basis(f"protocol {p.name}", p.sources["days"], (state.start_event,))
    return (
        Fact("protocol", "protocol", p.name),
        Fact("started", "in quarantine since", state.started, Kind.DATE),
        Fact("cause", "cause", state.cause or None),
        Fact("clock_start", "clock started", state.clock_start, Kind.DATE),
        Fact("day", "day", state.day, Unit.COUNT),
        Fact("days", "of", p.days, Unit.COUNT, days),
        Fact("days_left", "days left", left, Unit.COUNT),
        Fact("earliest_end", "earliest end", state.earliest_end, Kind.DATE),
        Fact("earliest_release", "earliest release", state.earliest_release, Kind.DATE),
        Fact("next_check", "next check", next_check(state), Kind.DATE),
        Fact("ready", "nothing missing", state.ready, Kind.YESNO),
        Fact("group", "group", p.group),
        Fact("tools", "tools", p.tools),
    )


def details_of(state: QuarantineState) -> tuple[Table, ...]:
    """What is missing, restarts, tests and checks of one running quarantine."""
    missing = tuple((m.words, m.next_on, m.possible_on, m.what) for m in state.missing)
    return (
        Table("missing", MISSING_COLUMNS, missing, "Still missing", "nothing is missing"),
        Table(
            "restarts",
            RESTART_COLUMNS,
            tuple((r.day, r.words, r.cause.value, r.event_id) for r in state.restarts),
            "Restarts",
            "none",
        ),
        Table("tests", TEST_COLUMNS, tuple(_tests(state)), "Tests", "none wanted"),
        Table("checks", CHECK_COLUMNS, tuple(_checks(state)), "Checks", "none wanted"),
    )


def _tests(state: QuarantineState) -> Iterable[tuple[Cell, ...]]:
    for p in state.tests:
        if p.test.negatives:
            counts = (len(p.counted), p.test.negatives, len(p.awaited))
            yield (p.test.title, *counts, p.next_sample)


def _checks(state: QuarantineState) -> Iterable[tuple[Cell, ...]]:
    for due in state.checks:
        last = due.last.day if due.last else None
        yield (due.check.title, last, due.due, due.overdue_days)
    again = next_recheck(state)
    if again is not None:
        yield ("look for mites again", None, again.day, max(0, (state.as_of - again.day).days))


def ended_table(rows: Iterable[tuple[str, QuarantineState]]) -> Table:
    """Quarantines that ended, in words; an override and its reason stay visible here."""
    columns = (
        Column("animal", "animal", Kind.CODE),
        Column("started", "started", Kind.DATE),
        Column("standing", "how it ended"),
        Column("overridden", "overridden", Kind.YESNO, text=False),
        Column("reason", "reason", text=False),
        Column("released", "released", Kind.DATE, text=False),
    )
    cells = tuple(
        (code, s.started, standing(s), s.overridden, s.release.reason or None, s.release.day)
        for code, s in rows
        if s.release is not None
    )
    return Table("ended", columns, cells, "Ended", "none")


def quarantine_section(code: str, states: Sequence[QuarantineState], on: date) -> Section:
    """The report section of one animal."""
    rows = [(code, s) for s in states]
    now = [s for s in states if s.running]
    parts: list[Part] = [*deferring(now), timeline_of(rows, on)]
    for state in now:
        parts += [Words(standing(state)), *details_of(state)]
    ended = ended_table(rows)
    return Section("Quarantine", (*parts, *([ended] if ended.rows else [])), 300)
