"""What is not as it was recorded, by the checksums of events, steps and tables."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import date

from warmside.core.record import sums
from warmside.core.record.series.sums import wrong_lines

NAMED = 5
SLICES = 14  # as many as there are daily copies by default


def check(
    connection: sqlite3.Connection, part: str = "1", steps: str = "1"
) -> Iterator[tuple[str, str]]:
    """What was held against its checksum, and what differs; `part` is a condition on ids.

    `steps` is one on the steps (`step_id`) of which the rows of series are looked at.
    """
    yield "events are as they were recorded", _named("event", sums.event_problems(connection, part))
    yield "steps are as they were recorded", _named("step", sums.step_problems(connection, part))
    yield "tables are as the last step left them", _named("table", sums.table_problems(connection))
    wrong = [f"{name} of step {step}" for name, step in wrong_lines(connection, steps)]
    yield "series are as they were recorded", _named("rows", wrong)
    yield "stamps are those of steps", _named("stamp", sums.stamp_problems(connection))


def _named(what: str, found: list[int] | list[str]) -> str:
    names = ", ".join(str(name) for name in found[:NAMED])
    more = f" and {len(found) - NAMED} more" if len(found) > NAMED else ""
    return f"changed since: {what} {names}{more}" if found else ""


def steps_of(day: date) -> str:
    """A condition on the steps of one day: a fourteenth of all."""
    return f"step_id % {SLICES} = {day.toordinal() % SLICES}"


def slice_of(connection: sqlite3.Connection, day: date) -> str:
    """A condition on ids for one day: a fourteenth of all, and what is newest.

    So every row is looked at before the last daily copy that holds it as it was is removed.
    """
    last = connection.execute("SELECT coalesce(max(id), 0) FROM event").fetchone()[0]
    width = last // SLICES + 1
    first = day.toordinal() % SLICES * width
    return f"(id BETWEEN {first} AND {first + width - 1} OR id > {last - width})"
