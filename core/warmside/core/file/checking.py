"""What is wrong with a collection file, as far as the file itself can tell."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, datetime
from pathlib import Path

from msgspec import Struct

from warmside.core.file import backup, checking_series
from warmside.core.file.state import file_problem, read_state, reader
from warmside.core.kinds.fields import Target
from warmside.core.kinds.known import Kinds
from warmside.core.record.guards import GUARD_NAMES
from warmside.core.record.owners import CORE_TABLES
from warmside.core.values.errors import BadInput, NotFound

STALE_BACKUP_DAYS = 30  # common practice, no source


class Checked(Struct, frozen=True):
    """One thing that was checked; `problem` is empty where it is well."""

    what: str
    problem: str = ""


def check_file(path: Path, kinds: Kinds, now: datetime) -> list[Checked]:
    """Everything that was checked; raises FileProblem where the file cannot even be read."""
    read_state(path)
    try:
        with closing(reader(path)) as connection:
            found = [
                *_sqlite(connection),
                *_invariants(connection),
                *_references(connection),
                *(Checked(*told) for told in checking_series.check(connection)),
                _data(connection, kinds),
            ]
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
    return [*found, _backup_age(path, now)]


def _sqlite(connection: sqlite3.Connection) -> Iterator[Checked]:
    verdicts = [r[0] for r in connection.execute("PRAGMA integrity_check(3)")]
    yield Checked("the file's pages", "" if verdicts == ["ok"] else "; ".join(verdicts))
    broken = connection.execute("PRAGMA foreign_key_check").fetchall()
    tables = ", ".join(sorted({r[0] for r in broken}))
    yield Checked("references between tables", f"broken in {tables}" if broken else "")
    names = {r[0] for r in connection.execute("SELECT name FROM sqlite_schema")}
    missing = sorted((CORE_TABLES | GUARD_NAMES) - names)
    yield Checked("the core's tables", f"missing: {', '.join(missing)}" if missing else "")


INVARIANTS = (
    (
        "events belong to steps in force",
        "SELECT count(*) FROM event e JOIN step s ON s.id = e.step_id "
        "WHERE s.undone_by IS NOT NULL",
        "{} events of undone steps are still in force",
    ),
    (
        "corrected events are replaced by one of the same kind",
        "SELECT count(*) FROM event e JOIN event r ON r.id = e.replaced_by WHERE r.kind <> e.kind",
        "{} events are replaced by one of another kind",
    ),
    (
        "days are dates",
        # date('2026-02-30') is taken as it stands; adding nothing makes SQLite reckon
        "SELECT count(*) FROM event WHERE date(day, '+0 days') IS NOT day",
        "{} events have a day that is no date",
    ),
    (
        "nobody is an own ancestor",
        "WITH RECURSIVE up(child, ancestor) AS (SELECT child_id, parent_id FROM parentage "
        "UNION SELECT up.child, p.parent_id FROM up JOIN parentage p ON p.child_id = up.ancestor) "
        "SELECT count(*) FROM up WHERE child = ancestor",
        "{} animals descend from themselves",
    ),
    (
        "weights of parents sum to at most 1",
        "SELECT count(*) FROM (SELECT sum(weight) AS total FROM parentage GROUP BY child_id, role "
        "UNION ALL SELECT sum(weight) FROM clutch_sire GROUP BY clutch_id) WHERE total > 1.000001",
        "{} sums of weights are more than 1",
    ),
)


DATA_REFER = (
    "SELECT count(*) FROM event e, json_each(CASE WHEN json_valid(e.data) THEN e.data END) j "
    "WHERE e.data LIKE '%{ending}%' AND j.type <> 'null' "
    "AND (j.key = '{ending}' OR j.key LIKE '%\\_{ending}' ESCAPE '\\') "
    'AND j.value NOT IN (SELECT id FROM "{table}")'
)


def _references(connection: sqlite3.Connection) -> Iterator[Checked]:
    """Whether the rows are there that events' data refer to, which no foreign key can watch."""
    for target in Target:
        query = DATA_REFER.format(ending=target.ending, table=target.value)
        number = connection.execute(query).fetchone()[0]
        problem = f"{number} events refer to no {target.value}" if number else ""
        yield Checked(f"events refer to a known {target.value}", problem)


def _invariants(connection: sqlite3.Connection) -> Iterator[Checked]:
    for what, query, problem in INVARIANTS:
        number = connection.execute(query).fetchone()[0]
        yield Checked(what, problem.format(number) if number else "")


def _data(connection: sqlite3.Connection, kinds: Kinds) -> Checked:
    """Whether each event is what its kind declares; kinds of absent plugins are passed over."""
    for id, kind, text in connection.execute("SELECT id, kind, data FROM event"):
        declared = kinds.get(kind)
        if declared is not None:
            try:
                declared.validate(json.loads(text))
            except (BadInput, ValueError) as error:
                return Checked("events are as their kinds declare", f"event {id}: {error}")
    return Checked("events are as their kinds declare")


def _backup_age(path: Path, now: datetime) -> Checked:
    try:
        newest = backup.newest(path)
    except NotFound:
        return Checked("backups", "there is none yet; make one: warmside file backup")
    made = date.fromtimestamp(newest.stat().st_mtime)
    days = (now.date() - made).days
    if days > STALE_BACKUP_DAYS:
        return Checked("backups", f"the newest is {days} days old; make one: warmside file backup")
    return Checked(f"backups (newest {newest.name})")
