"""What is wrong with a collection file, as far as the file itself can tell; it never fails."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing
from datetime import datetime
from pathlib import Path

from msgspec import Struct

from warmside.core.file.checks import columns, pictures, rules, series, sums, values
from warmside.core.file.copies import backup
from warmside.core.file.state import file_problem, read_state, reader
from warmside.core.file.strangers import plain_tables, schema_of
from warmside.core.kinds.known import Kinds
from warmside.core.record.guards import GUARD_NAMES
from warmside.core.record.owners import CORE_TABLES
from warmside.core.record.series.sums import lines_of, series_in
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput

STALE_BACKUP_DAYS = 30  # common practice, no source
BY_KIND = "SELECT kind, count(*) FROM event GROUP BY kind"
Looks = Callable[[], Iterable[tuple[str, str]]]


class Checked(Struct, frozen=True):
    """One thing that was checked; `problem` is empty where it is well."""

    what: str
    problem: str = ""

    @property
    def only_a_note(self) -> bool:
        """Whether the file itself is sound all the same: copies are told of."""
        return "backups" in self.what or "copies" in self.what


def check_file(path: Path, kinds: Kinds, now: datetime) -> list[Checked]:
    """Everything that was checked; raises FileProblem where the file cannot even be read."""
    read_state(path)
    try:
        with closing(reader(path)) as connection:
            found = check_open_file(connection, kinds)
            looked = _looked("pictures", lambda: pictures.check(connection, path))
            found += [Checked(*told) for told in looked]
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
    return [*found, _backup_age(path, now)]


def check_open_file(connection: sqlite3.Connection, kinds: Kinds) -> list[Checked]:
    """Everything that is checked within a file; what cannot be looked at is a problem itself."""
    connection.execute("PRAGMA trusted_schema = OFF")
    tables = plain_tables(schema_of(connection))
    looks: tuple[tuple[str, Looks], ...] = (
        ("the file's pages", lambda: _sqlite(connection)),
        ("values in tables", lambda: columns.check(connection, tables)),
        ("texts", lambda: values.check(connection)),
        ("rules between rows", lambda: rules.check(connection)),
        ("series", lambda: series.check(connection)),
        ("events are as their kinds declare", lambda: [_data(connection, kinds)]),
        ("checksums", lambda: sums.check(connection)),
    )
    return [Checked(*told) for what, look in looks for told in _looked(what, look)]


def not_checked(path: Path, kinds: Kinds) -> list[str]:
    """What nobody can tell from the file, or what this program does not look at."""
    found = ["whether what was typed is true", "copies: each is looked at when it is put back"]
    try:
        with closing(reader(path)) as connection:
            lines = {name: lines_of(connection, name) for name in series_in(connection)}
            by_kind = connection.execute(BY_KIND).fetchall()
    except sqlite3.DatabaseError:
        return [*found, "what lies behind pages that cannot be read"]
    if names := [name for name, of in lines.items() if any(x.sum is None for x in of)]:
        rows = "rows of series that an older version wrote, of which the number alone is known"
        found.append(f"{rows}: {', '.join(names)}")
    if absent := {k: n for k, n in by_kind if k not in kinds}:
        kinds_told = ", ".join(sorted(map(str, absent)))
        events = counted(sum(absent.values()), "event")
        found.append(f"data of {events} of absent plugins: {kinds_told}")
    return found


def daily_problems(connection: sqlite3.Connection, path: Path, part: sums.Part) -> list[str]:
    """What is wrong, as far as it can be told in the time of a daily copy."""
    looks: tuple[tuple[str, Looks], ...] = (
        ("texts", lambda: values.check(connection)),
        (
            "checksums",
            lambda: sums.check(connection, part.ids(connection), part.steps),
        ),
        ("pictures", lambda: pictures.daily_problems(connection, path)),
    )
    told = [t for what, look in looks for t in _looked(what, look)]
    return [f"{what}: {problem}" for what, problem in told if problem]


def _looked(what: str, look: Looks) -> Iterator[tuple[str, str]]:
    try:
        yield from look()
    except Exception as error:  # whatever rot may cause; it must not hide the rest
        yield what, f"cannot be looked at ({type(error).__name__}: {error})"


def _sqlite(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    verdicts = [r[0] for r in connection.execute("PRAGMA integrity_check(3)")]
    yield "the file's pages", "" if verdicts == ["ok"] else "; ".join(verdicts)
    broken = connection.execute("PRAGMA foreign_key_check").fetchall()
    tables = ", ".join(sorted({r[0] for r in broken}))
    yield "references between tables", f"broken in {tables}" if broken else ""
    names = {r[0] for r in connection.execute("SELECT name FROM sqlite_schema")}
    missing = sorted((CORE_TABLES | GUARD_NAMES) - names)
    yield "the core's tables", f"missing: {', '.join(missing)}" if missing else ""


def _data(connection: sqlite3.Connection, kinds: Kinds) -> tuple[str, str]:
    """Whether each event is what its kind declares; kinds of absent plugins are passed over."""
    for id, kind, text in connection.execute("SELECT id, kind, data FROM event"):
        declared = kinds.get(kind)
        if declared is not None:
            try:
                declared.validate(json.loads(text))
            except (BadInput, ValueError, TypeError, AttributeError) as error:
                return "events are as their kinds declare", f"event {id}: {error}"
    return "events are as their kinds declare", ""


def _backup_age(path: Path, now: datetime) -> Checked:
    newest = backup.newest_sound(path, now.date())
    if newest is None:
        return Checked("backups", "there is none yet; make one: warmside file backup")
    days = (now.date() - backup.day_of(newest)).days
    if days > STALE_BACKUP_DAYS:
        return Checked("backups", f"the newest is {days} days old; make one: warmside file backup")
    return Checked(f"backups (newest {newest.name})")
