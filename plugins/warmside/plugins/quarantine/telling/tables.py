"""Many quarantines as tables: those that run, and those that ended."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import (
    Cell,
    Column,
    Kind,
    Table,
    Unit,
)
from warmside.plugins.quarantine.clock.state import QuarantineState, next_check
from warmside.plugins.quarantine.telling.wording import standing

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
        s.days_left,
        s.started,
        s.clock_start,
        s.earliest_release,
        s.ready,
        s.cause,
        s.protocol.group,
    )


def ended_table(rows: Iterable[tuple[str, QuarantineState]]) -> Table:
    """Quarantines that ended, in words; an override and its reason stay visible here."""
    columns = (
        Column("animal", "animal", Kind.CODE),
        Column("started", "began", Kind.DATE),
        Column("standing", "how it ended"),
        Column("overridden", "overridden", Kind.YESNO, text=False),
        Column("reason", "reason", text=False),
        Column("released", "released", Kind.DATE, text=False),
    )
    cells = tuple(_ended_row(code, s) for code, s in rows if not s.running)
    return Table("ended", columns, cells, "Ended", "none")


def _ended_row(code: str, s: QuarantineState) -> tuple[Cell, ...]:
    reason, day = (s.release.reason, s.release.day) if s.release else ("", None)
    return (code, s.started, standing(s), s.overridden, reason or None, day)
