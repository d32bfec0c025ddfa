"""What is not as it was recorded, by the checksums of events, steps and tables."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from warmside.core.record import sums
from warmside.core.record.series.sums import wrong_lines

NAMED = 5
MOST_SLICES = 14  # as many as there are daily copies by default
BLOCK = 64  # events that lie together are read together


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


class Part(NamedTuple):
    """Some slices of a record that is looked at in so many: a slice a day, in turn."""

    slices: int
    due: tuple[int, ...]

    @property
    def steps(self) -> str:
        """A condition on the steps whose rows of series are looked at."""
        return f"step_id % {self.slices} IN {self._listed}"

    def ids(self, connection: sqlite3.Connection) -> str:
        """A condition on ids of events and steps: the slices, and what is newest."""
        last = connection.execute("SELECT coalesce(max(id), 0) FROM event").fetchone()[0]
        newest = last - last // self.slices - 1
        return f"(id / {BLOCK} % {self.slices} IN {self._listed} OR id > {newest})"

    @property
    def _listed(self) -> str:
        return f"({', '.join(map(str, self.due))})"


def part_of(today: date, since: date | None, copies: int) -> Part:
    """What is to be looked at before the copy of a day, where the last copy is of the day `since`.

    Each row is looked at before the last of so many daily copies that holds it as it was is
    removed: whoever writes once a week looks at seven slices each time.
    """
    slices = min(MOST_SLICES, copies)
    days = slices if since is None else min(slices, (today - since).days)
    return Part(slices, tuple(sorted((today.toordinal() - n) % slices for n in range(days))))
