"""One running quarantine: its figures, what is missing, restarts, tests and checks."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import (
    Basis,
    Cell,
    Column,
    Fact,
    Kind,
    Table,
    Unit,
)
from warmside.plugins.quarantine.clock.state import QuarantineState, next_check, next_recheck

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


def facts_of(state: QuarantineState, group: str) -> tuple[Fact, ...]:
    """The figures of one running quarantine, with the name of its tool group."""
    p = state.protocol
    days = Basis(f"protocol {p.name}", p.sources["days"], (state.start_event,))
    return (
        Fact("protocol", "protocol", p.name),
        Fact("started", "in quarantine since", state.started, Kind.DATE),
        Fact("cause", "cause", state.cause or None),
        Fact("clock_start", "clock started", state.clock_start, Kind.DATE),
        Fact("day", "day", state.day, Unit.COUNT),
        Fact("days", "of days", p.days, Unit.COUNT, days),
        Fact("days_left", "days left", state.days_left, Unit.COUNT),
        Fact("earliest_end", "earliest end", state.earliest_end, Kind.DATE),
        Fact("earliest_release", "earliest release", state.earliest_release, Kind.DATE),
        Fact("next_check", "next check due", next_check(state), Kind.DATE),
        Fact("ready", "ready for release", state.ready, Kind.YESNO),
        Fact("group", "tool group", group),
        Fact("tools", "tools", p.tools),
    )


def details_of(state: QuarantineState) -> tuple[Table, ...]:
    """What is missing, restarts, tests and checks of one running quarantine."""
    missing = tuple((m.words, m.next_on, m.possible_on, m.what) for m in state.missing)
    return (
        Table(
            "missing",
            MISSING_COLUMNS,
            missing,
            "Still missing",
            "nothing is missing",
            ticks=True,
        ),
        Table(
            "restarts",
            RESTART_COLUMNS,
            tuple((r.day, r.words, r.cause.value, r.event_id) for r in state.restarts),
            "Restarts",
            "",
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
