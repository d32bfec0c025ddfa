"""Rows of series in a file put together of several sources: whole by step, or said to be not.

A row of a series has no checksum of its own; its step's line of `change` has one of all. Where that
does not hold, and a copy has the rows for which it does, those go before what was read.
"""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing, suppress
from pathlib import Path

from warmside.core.file.state import reader
from warmside.core.record import sums
from warmside.core.record.guards import STEP
from warmside.core.record.series.sums import (
    Line,
    lines_of,
    rows_sum,
    series_in,
    sums_by_step,
    wrong_lines,
)

KEY = "rows of step"


def damaged(new: sqlite3.Connection) -> set[str]:
    """The series of which a step does not have the rows that it wrote."""
    return {name for name, _ in wrong_lines(new)}


def fill_steps(new: sqlite3.Connection, copies: Sequence[Path]) -> Counter[str]:
    """Take all rows of a step that is not as it was from the newest copy that has them right.

    How many of each series.
    """
    wrong, taken = set(wrong_lines(new)), Counter[str]()
    for name in {name for name, _ in wrong}:
        for line in (line for line in lines_of(new, name) if (name, line.step_id) in wrong):
            taken[name] += _take_whole(new, name, line, copies)
    return taken


def leave_out_of_no_step(new: sqlite3.Connection) -> Counter[str]:
    """Leave out rows whose step is none, or is known not to have written any: how many."""
    gone = Counter[str]()
    struck = sums.step_problems(new)
    whole = f"SELECT id FROM step WHERE id NOT IN ({', '.join(map(str, struck))})"
    for name in series_in(new):
        wrote = f"SELECT step_id FROM change WHERE tbl = '{name}'"
        for table in (name, f"{name}_shelf"):
            none = f"{STEP} NOT IN (SELECT id FROM step)"
            other = f"{STEP} IN ({whole}) AND {STEP} NOT IN ({wrote})"
            gone[table] = new.execute(f'DELETE FROM "{table}" WHERE {none} OR {other}').rowcount
    return gone


def say_what_is_there(new: sqlite3.Connection) -> Iterator[tuple[int, str]]:
    """Make each step's line say the rows that are there; which steps lost some, and how many."""
    for name in series_in(new):
        numbers = _numbers(new, name)
        sums = sums_by_step(new, name) + sums_by_step(new, f"{name}_shelf")
        lines = lines_of(new, name)
        for line in lines:
            number = numbers.get(line.step_id, 0)
            kept = sums[line.step_id] if line.sum is None else line.sum
            if (number, sums[line.step_id]) != (line.rows, kept):
                _write(new, line.id, number, sums[line.step_id])
                yield line.step_id, _lost(name, line, number)
        for step in sorted(numbers.keys() - {line.step_id for line in lines}):
            _add(new, name, step, numbers[step], sums[step])
            yield step, f"how many rows of {name} there were is not known; {numbers[step]} are left"


def _lost(name: str, line: Line, number: int) -> str:
    if line.rows is None:
        return f"how many rows of {name} there were is not known; {number} are left"
    if number >= line.rows:
        return f"not all of the {number} rows of {name} are as they were read in"
    return f"{line.rows - number} of {line.rows} rows of {name} are gone"


def _numbers(new: sqlite3.Connection, name: str) -> dict[int, int]:
    both = f'SELECT {STEP} FROM "{name}" UNION ALL SELECT {STEP} FROM "{name}_shelf"'
    return dict(new.execute(f"SELECT {STEP}, count(*) FROM ({both}) GROUP BY {STEP}").fetchall())


def _take_whole(new: sqlite3.Connection, name: str, line: Line, copies: Sequence[Path]) -> int:
    columns = sorted(r[0] for r in new.execute("SELECT name FROM pragma_table_info(?)", (name,)))
    columns.remove(STEP)
    names, marks = ", ".join(f'"{c}"' for c in columns), ", ".join("?" * len(columns))
    for copy in copies:
        for table in (name, f"{name}_shelf"):
            query = f'SELECT {names} FROM "{table}" WHERE {STEP} = ?'
            rows = _rows(copy, query, line.step_id)
            if len(rows) == line.rows and rows_sum(rows) == line.sum:
                for own in (name, f"{name}_shelf"):
                    new.execute(f'DELETE FROM "{own}" WHERE {STEP} = ?', (line.step_id,))
                place = name if line.in_force else f"{name}_shelf"
                add = f'INSERT OR REPLACE INTO "{place}" ({names}, {STEP}) VALUES ({marks}, ?)'
                new.executemany(add, [(*row, line.step_id) for row in rows])
                return len(rows)
    return 0


def _rows(copy: Path, query: str, step: int) -> list[tuple[object, ...]]:
    with suppress(sqlite3.DatabaseError), closing(reader(copy)) as connection:
        return connection.execute(query, (step,)).fetchall()
    return []


def _write(new: sqlite3.Connection, id: int, number: int, total: int) -> None:
    if number:
        new.execute("UPDATE change SET after = ? WHERE id = ?", (_told(number, total), id))
    else:
        new.execute("DELETE FROM change WHERE id = ?", (id,))


def _add(new: sqlite3.Connection, name: str, step: int, number: int, total: int) -> None:
    new.execute(
        "INSERT INTO change (step_id, tbl, key, after) VALUES (?, ?, ?, ?)",
        (step, name, json.dumps({KEY: step}), _told(number, total)),
    )


def _told(number: int, total: int) -> str:
    return json.dumps({"rows": number, "sum": total})
