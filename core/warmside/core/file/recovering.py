"""A new file of the rows that can still be read from a damaged one, and of what copies hold more.

The tables are built by our own revisions; rows come from the file's pages, and what is missing from
the newest copies. A row of the file goes before that of a copy unless its checksum says otherwise.
"""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import closing, suppress
from pathlib import Path

from msgspec import Struct

from warmside.core.file.copies import backup, restoring
from warmside.core.file.half_made import begin, part_beside
from warmside.core.file.pages import Pages, Row
from warmside.core.file.places import check_place
from warmside.core.file.state import read_state, reader
from warmside.core.file.strangers import plain_tables, schema_of
from warmside.core.record import sums
from warmside.core.record.owners import VERSIONS
from warmside.core.values.errors import BadInput, FileProblem, Refused, WarmsideError

MakeTables = Callable[[Path, Mapping[str, str]], frozenset[str]]
MOST_BYTES = 4 << 30
Columns = Sequence[str]


class Recovered(Struct):
    """How many rows came out of the file and how many of copies, and what neither had."""

    from_file: Counter[str]
    from_copies: Counter[str]
    left_out: Counter[str]  # rows that refer to what is gone
    copies: list[Path]


class Source(Struct, frozen=True):
    """A readable file beside the damaged one: revisions, roots and columns are taken from it."""

    path: Path
    revisions: dict[str, str]


def recover(path: Path, target: Path, copies: Sequence[Path], make_tables: MakeTables) -> Recovered:
    """Make `target` of what can be read in `path` and in its copies, newest first.

    Raises Refused where `target` is there, FileProblem where neither the file nor a copy says how
    its tables are made.
    """
    if check_place(target).exists():
        raise Refused(f"{target} is there already; name another file")
    guides = [g for p in (path, *copies) if (g := _guide(p)) is not None]
    if not guides:
        raise FileProblem(f"neither {path} nor a copy of it says how its tables are made")
    part = part_beside(target)
    begin(part)
    try:
        make_tables(part, guides[0].revisions)
        with closing(sqlite3.connect(part)) as new:
            new.isolation_level = None
            found = _filled(new, path, guides)
        read_state(part)
        backup.sync(part)
        part.replace(target)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return found


def _guide(path: Path) -> Source | None:
    try:
        return Source(path, read_state(path).revisions)
    except WarmsideError:
        return None


def _filled(new: sqlite3.Connection, path: Path, guides: Sequence[Source]) -> Recovered:
    found = Recovered(Counter(), Counter(), Counter(), [g.path for g in guides if g.path != path])
    tables = [t for t in plain_tables(schema_of(new)) if not t.startswith(("sqlite_", VERSIONS))]
    new.execute("BEGIN")
    guards = [t for t in schema_of(new) if t.type == "trigger"]
    for guard in guards:
        new.execute(f'DROP TRIGGER "{guard.name}"')
    pages, roots = Pages(_bytes_of(path)), _roots(guides)
    for table in tables:
        new.execute(f'DELETE FROM "{table}"')
        columns = _columns(new, table)
        if table in roots:
            rows = _of_pages(pages, roots[table], columns, _rowid_column(new, table), table)
            found.from_file[table] += _add(new, table, columns, rows)
        for guide in (g for g in guides if g.path != path):
            found.from_copies[table] += _add(new, table, columns, _of_copy(guide, table, columns))
    _leave_out_broken(new, found)
    for guard in guards:
        new.execute(guard.sql or "")
    sums.renew(new, sums.Wrong())
    new.execute("COMMIT")
    return found


def _bytes_of(path: Path) -> bytes:
    if not path.is_file():
        return b""
    if path.stat().st_size > MOST_BYTES:
        raise BadInput(f"{path} is too large to be read page by page")
    return restoring.bytes_of(path)


def _roots(guides: Sequence[Source]) -> dict[str, int]:
    """The root page of each table in the damaged file, from itself or a copy of the same pages."""
    roots: dict[str, int] = {}
    query = "SELECT name, rootpage FROM sqlite_schema WHERE type = 'table'"
    for guide in guides:
        with suppress(sqlite3.DatabaseError), closing(reader(guide.path)) as connection:
            for name, root in connection.execute(query):
                roots.setdefault(name, root)
    return roots


def _columns(connection: sqlite3.Connection, table: str) -> list[str]:
    return [r[0] for r in connection.execute("SELECT name FROM pragma_table_info(?)", (table,))]


def _of_pages(
    pages: Pages, root: int, columns: Columns, key: str | None, table: str
) -> Iterable[Sequence[object]]:
    """Rows of the damaged file; of events only those whose checksum holds."""
    for row in pages.rows(root):
        values = _placed(row, columns, key)
        if values is not None and (
            table not in ("event", "event_shelf")
            or _as_recorded(dict(zip(columns, values, strict=True)))
        ):
            yield values


def _placed(row: Row, columns: Columns, key: str | None) -> list[object] | None:
    """The values by column; the key lies in the row's number, later columns may be missing."""
    values: list[object] = list(row.values)
    if len(values) > len(columns):
        return None
    values += [None] * (len(columns) - len(values))
    if key is not None:
        values[columns.index(key)] = row.rowid
    return values


def _rowid_column(new: sqlite3.Connection, table: str) -> str | None:
    rows = new.execute(
        "SELECT name, upper(type) FROM pragma_table_info(?) WHERE pk > 0", (table,)
    ).fetchall()
    return rows[0][0] if len(rows) == 1 and rows[0][1] == "INTEGER" else None


def _as_recorded(row: dict[str, object]) -> bool:
    wanted = [name.strip() for name in sums.EVENT.split(",")]
    return row["sum"] is None or sums.row_sum([row[name] for name in wanted]) == row["sum"]


def _of_copy(guide: Source, table: str, columns: Columns) -> Iterable[Sequence[object]]:
    names = ", ".join(f'"{c}"' for c in columns)
    with suppress(sqlite3.DatabaseError), closing(reader(guide.path)) as connection:
        yield from connection.execute(f'SELECT {names} FROM "{table}"')


def _add(
    new: sqlite3.Connection, table: str, columns: Columns, rows: Iterable[Sequence[object]]
) -> int:
    names, marks = ", ".join(f'"{c}"' for c in columns), ", ".join("?" * len(columns))
    statement = f'INSERT OR IGNORE INTO "{table}" ({names}) VALUES ({marks})'
    added = 0
    for row in rows:
        with suppress(sqlite3.IntegrityError, sqlite3.InterfaceError, OverflowError):
            added += new.execute(statement, tuple(row)).rowcount
    return added


def _leave_out_broken(new: sqlite3.Connection, found: Recovered) -> None:
    """Leave out what refers to what is gone."""
    while broken := new.execute("PRAGMA foreign_key_check").fetchall():
        for table, rowid in {(row[0], row[1]) for row in broken}:
            if rowid is None:  # a series, stored in its key
                raise FileProblem(f"rows of {table} refer to what is gone and cannot be left out")
            new.execute(f'DELETE FROM "{table}" WHERE rowid = ?', (rowid,))
            found.left_out[table] += 1
