"""Which plugins are installed, and what a collection file says of itself. No heavy imports."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import quote

from warmside.core.errors import Busy, FileProblem, WarmsideError
from warmside.core.manifest import ENTRY_POINT_GROUP, BadPlugin, Manifest, check_manifest

APPLICATION_ID = 0x57524D53  # "WRMS"
BUSY_SECONDS = 5.0
FILE_COMPLAINTS = {
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_CORRUPT,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_NOTADB,
    sqlite3.SQLITE_READONLY,
}

# Shipped plugins, so that the usual start never scans the installed distributions (30 ms).
# A test holds this table against the entry points.
BUILT_IN = {
    name: f"warmside.plugins.{name}:MANIFEST"
    for name in ("feeding", "labels", "quarantine", "rhythm", "shed", "weight")
}


class Installed(NamedTuple):
    """A plugin's entry point and the distribution that brings it."""

    name: str
    target: str
    distribution: str
    version: str


class FileState(NamedTuple):
    """What a collection file says of itself, read without SQLAlchemy."""

    revisions: dict[str, str]  # owner -> schema revision
    enabled: tuple[str, ...]
    known: tuple[str, ...]  # every plugin that was ever enabled


def load_object(target: str) -> Any:
    """The object that a `module:attribute` string names."""
    module, _, attribute = target.partition(":")
    found = import_module(module)
    return getattr(found, attribute) if attribute else found


def installed() -> dict[str, list[Installed]]:
    """Every plugin that an installed distribution offers; reads metadata, imports no plugin."""
    from importlib.metadata import entry_points

    found: dict[str, list[Installed]] = {}
    for point in entry_points(group=ENTRY_POINT_GROUP):
        where = (point.dist.name, point.dist.version) if point.dist else ("?", "?")
        offer = Installed(point.name, point.value, *where)
        if offer not in found.setdefault(point.name, []):
            found[point.name].append(offer)
    for name, target in BUILT_IN.items():
        if not any(o.target == target for o in found.get(name, [])):
            found.setdefault(name, []).append(Installed(name, target, "warmside", ""))
    return found


def manifest_of(name: str) -> Manifest:
    """The manifest of one installed plugin; imports only the module that holds it."""
    target = BUILT_IN.get(name) or _only_target(name)
    try:
        found = load_object(target)
    except (Exception, SystemExit) as error:  # a third party's import must not stop the rest
        raise BadPlugin(name, f"does not import: {type(error).__name__}: {error}") from error
    return check_manifest(name, found)


def _only_target(name: str) -> str:
    offers = installed().get(name, [])
    if not offers:
        raise BadPlugin(
            name,
            "is used by this file but not installed; install it, or leave it out: "
            f"warmside plugin disable {name}",
        )
    if len(offers) > 1:
        sources = " and ".join(o.distribution for o in offers)
        raise BadPlugin(name, f"is offered by two packages, {sources}; uninstall one")
    return offers[0].target


def manifests(names: Iterable[str]) -> list[Manifest | BadPlugin]:
    """The manifest of each name, or why it cannot be had."""
    got: list[Manifest | BadPlugin] = []
    for name in sorted(names):
        try:
            got.append(manifest_of(name))
        except BadPlugin as problem:
            got.append(problem)
    return got


def reader(path: Path) -> sqlite3.Connection:
    """A plain connection that reads an existing file.

    With mode=ro it could not roll back what a killed program left half written; a write-protected
    file is opened all the same.
    """
    return sqlite3.connect(f"file:{quote(str(path))}?mode=rw", uri=True, timeout=BUSY_SECONDS)


def read_state(path: Path) -> FileState:
    """Revisions and plugins of a collection file, by plain sqlite3 (under 1 ms).

    Raises FileProblem where the file is no collection or cannot be read, Busy where it is locked.
    """
    _check_header(path)
    try:
        with closing(reader(path)) as connection:
            return _state(path, connection)
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error


def _check_header(path: Path) -> None:
    try:
        with path.open("rb") as file:
            header = file.read(100)
    except OSError as error:
        raise FileProblem(f"cannot read {path}: {error.strerror}") from error
    if not header:
        raise FileProblem(f"{path} is empty (zero bytes); restore a backup: warmside file restore")
    if header[:16] != b"SQLite format 3\0":
        raise FileProblem(f"{path} is not a collection; name another file with --collection")
    if len(header) < 100 or int.from_bytes(header[68:72], "big") != APPLICATION_ID:
        raise FileProblem(
            f"{path} is an SQLite file but not a collection; name another with --collection"
        )


def _state(path: Path, connection: sqlite3.Connection) -> FileState:
    tables = [r[0] for r in connection.execute("SELECT name FROM sqlite_schema WHERE type='table'")]
    revisions = {}
    for table in (t for t in tables if t.startswith("schema_version_")):
        row = connection.execute(f'SELECT version_num FROM "{table}"').fetchone()
        if row:
            revisions[table.removeprefix("schema_version_")] = row[0]
    if "plugin_state" not in tables or "core" not in revisions:
        raise FileProblem(f"{path} has no record in it; restore a backup: warmside file restore")
    rows = connection.execute("SELECT name, enabled FROM plugin_state ORDER BY name").fetchall()
    return FileState(revisions, tuple(n for n, on in rows if on), tuple(n for n, _ in rows))


def is_about_the_file(error: BaseException, *, in_snapshot: bool = False) -> bool:
    """Whether SQLite complains about the file or disk, not about what it was asked."""
    code = getattr(getattr(error, "orig", error), "sqlite_errorcode", 0)
    if in_snapshot and code == sqlite3.SQLITE_READONLY:  # somebody writes where one only reads
        return False
    return code & 0xFF in FILE_COMPLAINTS


def file_problem(path: Path, error: BaseException) -> WarmsideError:
    """SQLite's complaint about a file, in the keeper's words, with the exit code that fits."""
    text = str(error).lower()
    if "locked" in text:
        return Busy(f"{path} is in use by another program; nothing was written; try again")
    if "disk i/o" in text:
        return FileProblem(
            f"the disk fails under {path} ({error}); nothing was written; check the disk, then "
            "look with: warmside file check"
        )
    if "malformed" in text or "not a database" in text:
        return FileProblem(f"{path} is damaged ({error}); restore a backup: warmside file restore")
    if "readonly" in text or "unable to open" in text:
        return FileProblem(f"cannot write {path} or its folder; check the permissions")
    if "full" in text:
        return FileProblem(f"the disk is full; nothing was written to {path}; make room, try again")
    return FileProblem(f"{path}: {error}; look with: warmside file check")
