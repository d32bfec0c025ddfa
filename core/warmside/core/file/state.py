"""What a collection file says of itself, by plain sqlite3. No heavy imports.

Only sqlite3 may open a collection file: on POSIX, closing any other descriptor of it drops every
lock that this process holds, and two writers then damage it.
"""

from __future__ import annotations

import errno
import os
import sqlite3
import stat
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import quote

from warmside.core.file.journals import strange_journal
from warmside.core.file.strangers import Thing, plain_tables, schema_of, strangers
from warmside.core.record.owners import VERSIONS
from warmside.core.values.errors import Busy, FileProblem, WarmsideError

APPLICATION_ID = 0x57524D53  # "WRMS"
BUSY_SECONDS = 5.0
LONGEST = 16 << 20  # bytes of a row; an archive takes a million letters; common practice, no source
FILE_COMPLAINTS = {
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_CORRUPT,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_NOTADB,
    sqlite3.SQLITE_READONLY,
}


class FileState(NamedTuple):
    """What a collection file says of itself, read without SQLAlchemy."""

    revisions: dict[str, str]  # owner -> schema revision
    enabled: tuple[str, ...]
    known: tuple[str, ...]  # every plugin that was ever enabled
    strangers: tuple[Thing, ...] = ()  # what no migration is known to make


class Reader(sqlite3.Connection):
    """As sqlite3's own, but damage in a name or a statement is told as damage.

    The driver cannot put such text into its words, and raises UnicodeDecodeError in their place.
    """

    def execute(self, *arguments: Any) -> sqlite3.Cursor:
        """As sqlite3's own; raises DatabaseError for whatever is wrong with the file."""
        try:
            return super().execute(*arguments)
        except UnicodeDecodeError as error:
            raise sqlite3.DatabaseError("database disk image is malformed") from error


def reader(path: Path) -> sqlite3.Connection:
    """A plain connection that reads an existing file.

    With mode=ro it could not roll back what a killed program left half written; a write-protected
    file is opened all the same. DatabaseError where what was left is none of ours.
    """
    if strange := strange_journal(path):
        raise sqlite3.DatabaseError(strange)
    text = quote(str(path))
    scheme = "file://" if text.startswith("/") else "file:"  # else //x would name another computer
    where = f"{scheme}{text}?mode=rw"
    connection = sqlite3.connect(where, uri=True, timeout=BUSY_SECONDS, factory=Reader)
    connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LONGEST)
    return connection


def read_state(path: Path) -> FileState:
    """Revisions and plugins of a collection file, by plain sqlite3 (under 1 ms).

    Raises FileProblem where the file is no collection or cannot be read, Busy where it is locked.
    """
    _check_readable(path)
    try:
        with closing(reader(path)) as connection:
            connection.execute("BEGIN")  # one snapshot, though another program may write
            return _state(path, connection)
    except sqlite3.DatabaseError as error:
        if getattr(error, "sqlite_errorcode", 0) == sqlite3.SQLITE_NOTADB:
            raise _no_collection(path, path.with_name(f"{path.name}-backups")) from error
        raise file_problem(path, error) from error


def _check_readable(path: Path) -> None:
    """Raise FileProblem for what SQLite could not name, or would wait for or make a file of."""
    try:
        about = path.stat()
    except OSError as error:
        raise FileProblem(f"cannot read {path}: {error.strerror}") from error
    if stat.S_ISDIR(about.st_mode):
        raise FileProblem(f"cannot read {path}: {os.strerror(errno.EISDIR)}")
    if not stat.S_ISREG(about.st_mode):
        raise _no_collection(path)
    if not about.st_size:
        raise FileProblem(f"{path} is empty (zero bytes); restore a backup: warmside file restore")
    if not os.access(path, os.R_OK):
        raise FileProblem(f"cannot read {path}: {os.strerror(errno.EACCES)}")
    if strange := strange_journal(path):
        raise FileProblem(
            f"{strange}, as none of warmside does, and to open {path} beside it could change or "
            "remove that; nothing was opened; if both came from somebody else, ask for an export, "
            "or move that journal away first"
        )


def _no_collection(path: Path, copies: Path | None = None) -> FileProblem:
    if copies is not None and copies.is_dir():
        return FileProblem(
            f"{path} is damaged, it is not a collection any more; save what can be read: "
            f"warmside file recover saved.warmside; copies of it lie in {copies}: "
            "warmside file restore"
        )
    return FileProblem(f"{path} is not a collection; name another file with --collection")


def _state(path: Path, connection: sqlite3.Connection) -> FileState:
    if connection.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
        raise FileProblem(
            f"{path} is an SQLite file but not a collection; name another with --collection"
        )
    things = schema_of(connection)
    tables = plain_tables(things)
    revisions = {}
    for table in (t for t in tables if t.startswith(VERSIONS)):
        row = connection.execute(f'SELECT version_num FROM "{table}"').fetchone()
        if row:
            revisions[table.removeprefix(VERSIONS)] = row[0]
    if "plugin_state" not in tables or "core" not in revisions:
        raise FileProblem(f"{path} has no record in it; restore a backup: warmside file restore")
    rows = connection.execute("SELECT name, enabled FROM plugin_state ORDER BY name").fetchall()
    enabled, known = (n for n, on in rows if on), (n for n, _ in rows)
    return FileState(revisions, tuple(enabled), tuple(known), tuple(strangers(things)))


def identity_of(connection: sqlite3.Connection) -> str:
    """The identity of a collection; empty where the file is of an older revision or has lost it."""
    try:
        row = connection.execute("SELECT identity FROM collection").fetchone()
    except sqlite3.OperationalError:
        return ""
    return str(row[0]) if row else ""


def identity_in(path: Path) -> str:
    """The identity of the collection in a file; empty where it cannot be told."""
    try:
        with closing(reader(path)) as connection:
            return identity_of(connection)
    except sqlite3.DatabaseError:
        return ""


def is_about_the_file(error: BaseException, *, in_snapshot: bool = False) -> bool:
    """Whether SQLite complains about the file or disk, not about what it was asked."""
    code = getattr(getattr(error, "orig", error), "sqlite_errorcode", 0)
    if in_snapshot and code == sqlite3.SQLITE_READONLY:  # somebody writes where one only reads
        return False
    return code & 0xFF in FILE_COMPLAINTS


ENDED = "the transaction was to be ended from within, which only the end of a step may do"


def file_problem(path: Path, error: BaseException) -> WarmsideError:
    """SQLite's complaint about a file, in the keeper's words, with the exit code that fits."""
    if getattr(error, "sqlite_errorcode", 0) == sqlite3.SQLITE_AUTH:
        return WarmsideError(f"{ENDED}; nothing was written")
    text = str(error).lower()
    if "locked" in text:
        return Busy(f"{path} is in use by another program; nothing was written; try again")
    if "disk i/o" in text:
        return FileProblem(
            f"the disk fails under {path} ({error}); nothing was written; check the disk, then "
            "look with: warmside file check"
        )
    if "malformed" in text or "not a database" in text:
        return FileProblem(
            f"{path} is damaged ({error}); save what can be read: warmside file recover "
            "saved.warmside; then put a copy back: warmside file restore"
        )
    if "readonly" in text or "unable to open" in text:
        return FileProblem(f"cannot write {path} or its folder; check the permissions")
    if "full" in text:
        return FileProblem(f"the disk is full; nothing was written to {path}; make room, try again")
    return FileProblem(f"{path}: {error}; look with: warmside file check")
