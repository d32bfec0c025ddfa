"""The whole collection as one archive that can be read without warmside, and back again.

A ZIP file with a README, the schema as SQL and one JSON Lines file a table, plugins' tables too.
"""

from __future__ import annotations

import contextlib
import io
import json
import sqlite3
import zipfile
from collections.abc import Iterable, Iterator
from contextlib import closing
from datetime import datetime
from itertools import chain, islice
from pathlib import Path
from typing import IO, Any

from warmside.core import __version__
from warmside.core.file.half_made import part_beside
from warmside.core.file.state import APPLICATION_ID, file_problem, read_state, reader
from warmside.core.values.errors import BadInput, FileProblem, Refused

FORMAT = 1
BATCH = 1000  # rows
README = """This archive holds a whole reptile collection, written by warmside {version} on {day}.

schema.sql      the tables, as SQL for SQLite
tables/*.jsonl  one file a table, one JSON object a line, keys are column names
archive.json    what wrote it, when, and how many rows each table has

Masses are in grams, lengths in millimetres, temperatures in degrees Celsius. Days are ISO dates;
`at` is an instant in UTC, empty where only the day is known. An event's `data` is JSON again.
`step`, `change` and the tables `..._shelf` serve undo. Events with `replaced_by` were corrected.
To read it back: warmside --collection NEW-FILE file import ARCHIVE
"""


def export(path: Path, target: Path, now: datetime, tables: Iterable[str] | None = None) -> int:
    """Write the archive (of some tables only, if named); returns the number of rows."""
    read_state(path)
    part = part_beside(target)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with (
            closing(reader(path)) as connection,
            zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive,
        ):
            connection.execute("BEGIN")  # one snapshot for all tables
            rows = _write(connection, archive, now, tables)
        part.replace(target)
    except OSError as error:
        raise FileProblem(f"cannot write {target}: {error.strerror}") from error
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
    finally:
        with contextlib.suppress(OSError):  # of which the keeper has been told already
            part.unlink(missing_ok=True)
    return rows


def _write(
    connection: sqlite3.Connection,
    archive: zipfile.ZipFile,
    now: datetime,
    wanted: Iterable[str] | None,
) -> int:
    chosen = set(wanted) if wanted is not None else None
    names = [n for n in table_names(connection) if chosen is None or n in chosen]
    counts = {}
    for name in names:
        with archive.open(f"tables/{name}.jsonl", "w") as member, _text(member) as file:
            counts[name] = 0
            for line in _lines(connection, name):
                file.write(line)
                counts[name] += 1
    archive.writestr("schema.sql", "\n".join(f"{s};" for s in _schema(connection, chosen)) + "\n")
    about = {
        "format": FORMAT,
        "warmside": __version__,
        "written": now.isoformat(),
        "rows": counts,
    }
    archive.writestr("archive.json", json.dumps(about, indent=1))
    archive.writestr("README.txt", README.format(version=__version__, day=now.date()))
    return sum(counts.values())


def table_names(connection: sqlite3.Connection) -> list[str]:
    """All tables of a file, SQLite's own left out."""
    rows = connection.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' "
        "ESCAPE '\\' ORDER BY name"
    )
    return [r[0] for r in rows]


def _text(member: IO[bytes]) -> io.TextIOWrapper:
    """A member as text, a row a line, with halves of characters as the file may hold them."""
    return io.TextIOWrapper(member, encoding="utf-8", errors="surrogatepass", newline="\n")


def _lines(connection: sqlite3.Connection, table: str) -> Iterator[str]:
    """Each row as a line of JSON, without the columns that SQLite computes from others."""
    columns = connection.execute("SELECT name, pk FROM pragma_table_info(?)", (table,)).fetchall()
    keys = [f'"{n}"' for n, pk in sorted(columns, key=lambda c: c[1]) if pk]
    order = ", ".join(keys) if _without_rowid(connection, table) else "rowid"
    names = [n for n, _ in columns]
    selected = ", ".join(f'"{n}"' for n in names)
    for row in connection.execute(f'SELECT {selected} FROM "{table}" ORDER BY {order}'):
        yield _encoded(dict(zip(names, row, strict=True))) + "\n"


_encoded = json.JSONEncoder(ensure_ascii=False).encode


def _without_rowid(connection: sqlite3.Connection, table: str) -> bool:
    """Whether the table is stored in its primary key, so that this has no place of its own."""
    keys = connection.execute(
        "SELECT name IN (SELECT name FROM sqlite_schema) FROM pragma_index_list(?) "
        "WHERE origin = 'pk'",
        (table,),
    ).fetchone()
    return bool(keys == (0,))


def _schema(connection: sqlite3.Connection, chosen: set[str] | None) -> list[str]:
    """The statements that make the tables: tables first, then indexes and triggers."""
    rows = connection.execute(
        "SELECT sql, tbl_name FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE "
        "'sqlite\\_%' ESCAPE '\\' ORDER BY type <> 'table', rowid"
    )
    return [sql for sql, table in rows if chosen is None or table in chosen]


def restore(archive_path: Path, path: Path) -> int:
    """Make a new collection file from an archive, whole or not at all; returns its rows."""
    if path.exists():
        raise Refused(f"{path} is there already; name another file with --collection")
    part = part_beside(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with zipfile.ZipFile(archive_path) as archive, closing(sqlite3.connect(part)) as new:
            rows = _read(archive, new)
        read_state(part)
        part.rename(path)
    except FileNotFoundError as error:
        raise BadInput(f"there is no file {archive_path}") from error
    except (zipfile.BadZipFile, KeyError, ValueError, sqlite3.DatabaseError) as error:
        raise BadInput(
            f"{archive_path} is no whole archive of a collection ({error}); nothing was made"
        ) from error
    except OSError as error:
        raise FileProblem(f"cannot make {path}: {error.strerror}") from error
    finally:
        with contextlib.suppress(OSError):  # of which the keeper has been told already
            part.unlink(missing_ok=True)
    return rows


def _read(archive: zipfile.ZipFile, new: sqlite3.Connection) -> int:
    about = json.loads(archive.read("archive.json"))
    if about.get("format") != FORMAT:
        raise ValueError(f"its format is {about.get('format')!r}, this program reads {FORMAT}")
    new.isolation_level = None
    new.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    new.execute("BEGIN")
    statements = _statements(archive.read("schema.sql").decode())
    for statement in (s for s in statements if s.upper().startswith("CREATE TABLE")):
        new.execute(statement)
    rows = sum(_fill(archive, new, name, count) for name, count in about["rows"].items())
    for statement in (s for s in statements if not s.upper().startswith("CREATE TABLE")):
        new.execute(statement)
    if new.execute("PRAGMA foreign_key_check").fetchone():
        raise ValueError("references between its tables are broken")
    new.execute("COMMIT")
    return rows


def _statements(text: str) -> list[str]:
    """The statements of a script; a trigger holds semicolons of its own."""
    found, current = [], ""
    for line in text.splitlines():
        current += line + "\n"
        if sqlite3.complete_statement(current):
            found.append(current.strip())
            current = ""
    return found


def _fill(archive: zipfile.ZipFile, new: sqlite3.Connection, table: str, count: int) -> int:
    """Read the rows of a table line by line, however many there are."""
    with archive.open(f"tables/{table}.jsonl") as member, _text(member) as lines:
        read = _insert(new, table, _rows(lines))
    if read != count:
        raise ValueError(f"{table} has {read} rows, {count} were written")
    return count


def _rows(lines: Iterable[str]) -> Iterator[dict[str, Any]]:
    """The rows, read a batch at a time: half the time of one by one."""
    full = filter(str.strip, lines)
    while batch := list(islice(full, BATCH)):
        yield from json.loads(f"[{','.join(batch)}]")


def _insert(new: sqlite3.Connection, table: str, rows: Iterator[dict[str, Any]]) -> int:
    first = next(rows, None)
    if first is None:
        return 0
    names = ", ".join(f'"{n}"' for n in first)
    marks = ", ".join("?" * len(first))
    values = (tuple(row.values()) for row in chain((first,), rows))
    statement = f'INSERT INTO "{table}" ({names}) VALUES ({marks})'
    return new.executemany(statement, values).rowcount
