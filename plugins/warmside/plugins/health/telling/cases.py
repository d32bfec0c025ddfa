"""Cases as a table, for the report and the vet."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Column, Kind, Table, Tone, Words
from warmside.plugins.health.cases.course_of_case import Case
from warmside.plugins.health.kinds import CASE

COLUMNS = (
    Column("day", "day", Kind.DATE),
    Column("case", "case since", Kind.DATE),
    Column("state", "state"),
    Column("what", "what was seen or said"),
    Column("awaited", "awaited"),
    Column("recheck", "recheck", Kind.DATE),
)
NO_DIAGNOSIS = Words(
    "What the keeper wrote down, no diagnosis. What is ill and how it is treated a vet says.",
    Tone.CAUTION,
)
NONE_YET = (
    f'no case on record; open one: warmside record {CASE} CODE --state open --what "what was seen"'
)


def table(cases: Sequence[Case]) -> Table:
    """All cases of an animal with all entries, for the vet."""
    rows = tuple(
        (e.day, c.begun, "closed" if e.closes else "open", e.what, e.awaited or None, e.recheck)
        for c in cases
        for e in c.entries
    )
    return Table("cases", COLUMNS, rows, empty=NONE_YET)
