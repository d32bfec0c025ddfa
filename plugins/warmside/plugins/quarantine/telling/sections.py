"""The sections of a report: of an animal, and of an enclosure with those inside."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from warmside.api import (
    Part,
    Section,
    Tone,
    Words,
    paragraphs,
)
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.protocol.terms import cautions
from warmside.plugins.quarantine.telling.details import details_of
from warmside.plugins.quarantine.telling.tables import ended_table, quarantines_table
from warmside.plugins.quarantine.telling.timeline import timeline_of
from warmside.plugins.quarantine.telling.wording import DEFER, standing

ORDER = 300


def deferring(states: Iterable[QuarantineState]) -> tuple[Words, ...]:
    """What every quarantine screen says: the protocols' own cautions, and whose word counts."""
    said = [c for s in states for c in cautions(s.protocol)]
    return paragraphs(*dict.fromkeys([*said, DEFER]), tone=Tone.CAUTION)


def animal_section(code: str, states: Sequence[QuarantineState], on: date) -> Section:
    """The report section of one animal."""
    rows = [(code, s) for s in states]
    now = [s for s in states if s.running]
    parts: list[Part] = [*deferring(now), timeline_of(rows, on)]
    for state in now:
        parts += [Words(standing(state)), *details_of(state)]
    ended = ended_table(rows)
    return Section("Quarantine", (*parts, *([ended] if ended.rows else [])), ORDER)


def enclosure_section(rows: Sequence[tuple[str, QuarantineState]], on: date) -> Section:
    """The report section of an enclosure: a line for each animal inside that is in quarantine."""
    cautioned = deferring(s for _, s in rows)
    parts = (timeline_of(rows, on), quarantines_table(rows))
    return Section("Quarantine", (*cautioned, *parts), ORDER)
