"""A new collection file from an archive that anybody may have made.

The tables are built by our own revisions and the rows alone are read; see `foreign_tables` for
plugins that are not installed.
"""

from __future__ import annotations

import contextlib
import json
import sqlite3
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

from warmside.core.file.archives import foreign_tables
from warmside.core.file.archives.members import lines_of, opened, text_of
from warmside.core.file.archives.pictures import put_pictures
from warmside.core.file.archives.writing import FORMAT, table_names
from warmside.core.file.copies import backup
from warmside.core.file.copies.pictures import named_in
from warmside.core.file.half_made import begin, part_beside
from warmside.core.file.pictures.places import pictures_of
from warmside.core.file.state import read_state
from warmside.core.file.strangers import schema_of, strangers
from warmside.core.record.owners import VERSIONS, owner_of
from warmside.core.values.errors import BadInput, FileProblem, Refused

BATCH_ROWS = 1000
BATCH_CHARACTERS = 1 << 20
WRONG = (  # what reading a broken or a crafted archive may raise
    zipfile.BadZipFile,
    zlib.error,
    sqlite3.Error,
    KeyError,
    ValueError,
    TypeError,
    OverflowError,
    RecursionError,
    NotImplementedError,
    EOFError,
)
MakeTables = Callable[[Path, Mapping[str, str]], frozenset[str]]
"""Makes a file with the tables of these owners at these revisions; gives the owners it knew."""


class Told(NamedTuple):
    """What an archive says of itself: how many rows each table has, and the revisions."""

    rows: dict[str, int]
    revisions: dict[str, str]


def restore(archive_path: Path, path: Path, make_tables: MakeTables) -> int:
    """Make a new collection file from an archive, whole or not at all; returns its rows."""
    if path.exists():
        raise Refused(f"{path} is there already; name another file with --collection")
    if not archive_path.is_file():
        raise BadInput(f"there is no file {archive_path}")
    part = part_beside(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with opened(archive_path) as archive:
            begin(part)
            rows = _made(archive, part, make_tables)
            put_pictures(archive, named_in(part), pictures_of(path))
        read_state(part)
        backup.sync(part)
        part.rename(path)
        backup.sync(path.parent)
    except WRONG as error:
        raise BadInput(
            f"{archive_path} is no whole archive of a collection ({error}); nothing was made"
        ) from error
    except OSError as error:
        raise FileProblem(f"cannot make {path}: {error.strerror}") from error
    finally:
        with contextlib.suppress(OSError):  # of which the keeper has been told already
            part.unlink(missing_ok=True)
    return rows


def _made(archive: zipfile.ZipFile, part: Path, make_tables: MakeTables) -> int:
    """Whatever can be looked at without a file is looked at before one is made."""
    told = _told(archive)
    things = list(foreign_tables.statements(text_of(archive, "schema.sql")))
    if "core" not in told.revisions:
        raise ValueError("it does not say which version wrote it")
    if missing := sorted(told.rows.keys() - {t.name for t in things if t.type == "table"}):
        raise ValueError(f"it does not say how {missing[0][:60]!a} is made")
    known = make_tables(part, told.revisions)
    with closing(sqlite3.connect(part)) as new:
        new.isolation_level = None
        made = {(t.type, t.name) for t in schema_of(new)}
        new.execute("BEGIN")
        with foreign_tables.bounded(new) as more_time:
            foreign_tables.make(new, foreign_tables.foreign(things, made, known))
            rows = sum(
                _fill(archive, new, name, count, more_time) for name, count in told.rows.items()
            )
        _check(new, told)
        new.execute("COMMIT")
    return rows


def _told(archive: zipfile.ZipFile) -> Told:
    about = json.loads(text_of(archive, "archive.json"))
    if not isinstance(about, dict) or about.get("format") != FORMAT:
        said = about.get("format") if isinstance(about, dict) else None
        raise ValueError(f"its format is {said!r}, this program reads {FORMAT}")
    rows = about["rows"]
    if not isinstance(rows, dict) or any(type(n) is not int for n in rows.values()):
        raise ValueError("it does not say how many rows each table has")
    revisions = {}
    for name in (n for n in rows if n.startswith(VERSIONS)):
        for row in _rows(_lines(archive, name)):
            revisions[name.removeprefix(VERSIONS)] = str(row["version_num"])
    return Told(rows, revisions)


def _lines(archive: zipfile.ZipFile, table: str) -> Iterator[str]:
    with archive.open(f"tables/{table}.jsonl") as member:
        yield from lines_of(member)


def _rows(lines: Iterator[str]) -> Iterator[dict[str, Any]]:
    """The rows, read a batch at a time: half the time of one by one."""
    while batch := list(_batch(lines)):
        read = json.loads(f"[{','.join(batch)}]")
        if len(read) != len(batch) or any(type(row) is not dict for row in read):
            raise ValueError("one of its lines is no row")
        yield from read


def _batch(lines: Iterator[str]) -> Iterator[str]:
    rows = characters = 0
    while rows < BATCH_ROWS and characters < BATCH_CHARACTERS:
        line = next(lines, None)
        if line is None:
            return
        rows, characters = rows + 1, characters + len(line)
        yield line


def _fill(
    archive: zipfile.ZipFile,
    new: sqlite3.Connection,
    table: str,
    count: int,
    more_time: Callable[[], None],
) -> int:
    """Read the rows of a table line by line, however many there are."""
    more_time()
    if table not in table_names(new):
        raise ValueError(f"it has rows of {table[:60]!a}, a table that no plugin makes")
    new.execute(f'DELETE FROM "{table}"')  # what a revision put there comes with the archive
    read = _insert(new, table, _rows(_lines(archive, table)), more_time)
    if read != count:
        raise ValueError(f"{table} has {read} rows, {count} were written")
    if computed := foreign_tables.computed_columns(new, table):
        lengths = ", ".join(f'sum(length("{c}"))' for c in computed)
        new.execute(f'SELECT {lengths} FROM "{table}"').fetchall()  # no value is too long
    return count


def _insert(
    new: sqlite3.Connection,
    table: str,
    rows: Iterator[dict[str, Any]],
    more_time: Callable[[], None],
) -> int:
    columns = [r[0] for r in new.execute("SELECT name FROM pragma_table_info(?)", (table,))]
    marks = ", ".join("?" * len(columns))
    names = ", ".join(f'"{c}"' for c in columns)
    statement = f'INSERT INTO "{table}" ({names}) VALUES ({marks})'
    return max(0, new.executemany(statement, _values(table, columns, rows, more_time)).rowcount)


def _values(
    table: str, columns: list[str], rows: Iterable[dict[str, Any]], more_time: Callable[[], None]
) -> Iterator[list[Any]]:
    wanted = set(columns)
    for number, row in enumerate(rows):
        if number % BATCH_ROWS == 0:
            more_time()
        if row.keys() != wanted:
            raise ValueError(f"a row of {table} has other columns")
        values = [row[c] for c in columns]
        if any(type(v) not in (str, int, float, type(None)) for v in values):
            raise ValueError(f"a row of {table} holds what is no text and no number")
        yield values


def _check(new: sqlite3.Connection, told: Told) -> None:
    """Raise ValueError where the file is not whole or holds what no migration makes."""
    if new.execute("PRAGMA foreign_key_check").fetchone():
        raise ValueError("references between its tables are broken")
    if missing := sorted(set(table_names(new)) - set(told.rows)):
        raise ValueError(f"it has no rows of {', '.join(missing)}")
    if found := [t.told for t in strangers(schema_of(new)) if owner_of(t.table) != "core"]:
        raise ValueError(f"it holds what no migration makes: {', '.join(found)}")
