"""The whole collection as one archive that can be read without warmside.

A ZIP file with a README, the schema as SQL and one JSON Lines file a table, plugins' tables too.
"""

from __future__ import annotations

import contextlib
import io
import json
import sqlite3
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import IO

from warmside.core import __version__
from warmside.core.file.archives.pictures import write_pictures
from warmside.core.file.half_made import begin, part_beside
from warmside.core.file.pictures.places import places
from warmside.core.file.state import file_problem, read_state, reader
from warmside.core.file.strangers import Thing, schema_of, strangers
from warmside.core.record.owners import CORE_TABLES
from warmside.core.record.pictures import files_named
from warmside.core.values.errors import FileProblem

FORMAT = 1
README = """This archive holds a whole reptile collection, written by warmside {version} on {day}.

schema.sql      the tables, as SQL for SQLite
tables/*.jsonl  one file a table, one JSON object a line, keys are column names
pictures/       pictures and papers, named by the `digest` and `kind` in the table `picture`
archive.json    what wrote it, when, how many rows each table has, what was found wrong
                and what was left out

Masses are in grams, lengths in millimetres, temperatures in degrees Celsius. Days are ISO dates;
`at` is an instant in UTC, empty where only the day is known. An event's `data` is JSON again.
`step`, `change` and the tables `..._shelf` serve undo. Events with `replaced_by` were corrected.
To read it back: warmside --collection NEW-FILE file import ARCHIVE
"""


def export(
    path: Path,
    target: Path,
    now: datetime,
    tables: Iterable[str] | None = None,
    found: Sequence[str] = (),
) -> int:
    """Write the archive (of some tables only, if named); returns the number of rows.

    `found` is what a check found wrong; the archive says it.
    """
    read_state(path)
    part = part_beside(target)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        begin(part, path)
        with (
            closing(reader(path)) as connection,
            zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive,
        ):
            connection.execute("BEGIN")  # one snapshot for all tables
            rows = _write(connection, archive, now, tables, found)
            if tables is None:
                write_pictures(archive, files_named(connection), places(path))
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
    found: Sequence[str],
) -> int:
    # of a table of the core only the rows count, whatever was added to how it is made
    strange = {
        t
        for t in strangers(schema_of(connection))
        if t.type != "table" or t.name not in CORE_TABLES
    }
    odd = {t.name for t in strange if t.type == "table"}
    chosen = set(table_names(connection)) - odd if wanted is None else set(wanted)
    names = [n for n in table_names(connection) if n in chosen]
    counts = {}
    for name in names:
        with _text(_member(archive, f"tables/{name}.jsonl")) as file:
            counts[name] = 0
            for line in _lines(connection, name):
                file.write(line)
                counts[name] += 1
    statements = "\n".join(f"{s};" for s in _schema(connection, chosen, strange))
    archive.writestr("schema.sql", f"{statements}\n")
    about = {
        "format": FORMAT,
        "warmside": __version__,
        "written": now.isoformat(),
        "rows": counts,
        "needs_attention": list(found),
        "left_out": sorted(t.told for t in strange if wanted is None),
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


def _member(archive: zipfile.ZipFile, name: str) -> IO[bytes]:
    """A member to be written, whose size nobody knows yet: it may pass 2 GB."""
    return archive.open(name, "w", force_zip64=True)


def _text(member: IO[bytes]) -> io.TextIOWrapper:
    """A member as text, a row a line, with halves of characters as the file may hold them."""
    return io.TextIOWrapper(member, encoding="utf-8", errors="surrogatepass", newline="\n")


def _lines(connection: sqlite3.Connection, table: str) -> Iterator[str]:
    """Each row as a line of JSON, without the columns that SQLite computes from others."""
    columns = connection.execute("SELECT name, pk FROM pragma_table_info(?)", (table,)).fetchall()
    keys = [f'"{n}"' for n, pk in sorted(columns, key=lambda c: c[1]) if pk]
    order = ", ".join(keys) if without_rowid(connection, table) else "rowid"
    names = [n for n, _ in columns]
    selected = ", ".join(f'"{n}"' for n in names)
    for row in connection.execute(f'SELECT {selected} FROM "{table}" ORDER BY {order}'):
        yield _encoded(dict(zip(names, row, strict=True))) + "\n"


_encoded = json.JSONEncoder(ensure_ascii=False).encode


def without_rowid(connection: sqlite3.Connection, table: str) -> bool:
    """Whether the table is stored in its primary key, so that this has no place of its own."""
    keys = connection.execute(
        "SELECT name IN (SELECT name FROM sqlite_schema) FROM pragma_index_list(?) "
        "WHERE origin = 'pk'",
        (table,),
    ).fetchone()
    return bool(keys == (0,))


def _schema(connection: sqlite3.Connection, chosen: set[str], strange: set[Thing]) -> list[str]:
    """The statements that make the tables: tables first, then indexes and triggers."""
    known = [t for t in schema_of(connection) if t.table in chosen and t not in strange]
    return [t.sql for t in sorted(known, key=lambda t: t.type != "table") if t.sql]
