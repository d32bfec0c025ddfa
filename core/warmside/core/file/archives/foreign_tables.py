"""Tables of plugins that are not installed here: made from an archive's own statements.

A statement is read first, then run where SQLite asks us about each thing that it would do; only a
plain table or index of that plugin's own name passes, for a short time.
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Collection, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

from warmside.core.file.strangers import Thing
from warmside.core.record.guards import is_guard
from warmside.core.record.owners import VERSIONS

NAME = r'["`\[]?([A-Za-z][A-Za-z0-9_]*)["`\]]?'
HEAD = re.compile(
    rf"CREATE\s+(?:UNIQUE\s+)?(TABLE|INDEX|TRIGGER)\s+{NAME}(?:\s.*?\bON\s+{NAME})?", re.I | re.S
)
MOST_LINES = 2000  # of one statement
FUNCTIONS = (
    *("abs", "coalesce", "date", "datetime", "ifnull", "instr", "json_valid", "julianday"),
    *("length", "lower", "max", "min", "nullif", "round", "strftime", "substr", "time", "trim"),
    *("typeof", "upper"),
)
SCHEMA_TABLES = ("sqlite_master", "sqlite_schema")
LIMITS = {
    sqlite3.SQLITE_LIMIT_LENGTH: 8 << 20,
    sqlite3.SQLITE_LIMIT_SQL_LENGTH: 1 << 16,
    sqlite3.SQLITE_LIMIT_COLUMN: 200,
    sqlite3.SQLITE_LIMIT_EXPR_DEPTH: 60,
    sqlite3.SQLITE_LIMIT_ATTACHED: 0,
    sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 2,
}
STEPS = 10_000  # of SQLite's machine between two looks at the count
MOST_STEPS = 50_000_000  # about a second; common practice, no source


def statements(text: str) -> Iterator[Thing]:
    """What a script would make; raises ValueError at the first statement that is no CREATE."""
    current: list[str] = []
    for line in text.splitlines():
        current.append(line)
        if len(current) > MOST_LINES:
            raise ValueError("a statement of its schema has no end")
        sql = "\n".join(current).strip()
        if line.rstrip().endswith(";") and sqlite3.complete_statement(sql):
            yield _read(sql.removesuffix(";"))  # its blanks stay as SQLite keeps them
            current = []
    if "".join(current).strip():
        raise ValueError("a statement of its schema has no end")


def _read(sql: str) -> Thing:
    head = HEAD.match(sql)
    if head is None:
        raise ValueError(f"its schema holds a statement that makes no table: {sql[:60]!a}")
    type, name, on = head.groups()
    made = type.lower()
    if made != "table" and on is None:
        raise ValueError(f"its schema holds an {made} that cannot be read: {sql[:60]!a}")
    return Thing(made, name, name if made == "table" else on, sql)


def foreign(
    things: Iterable[Thing], made: Collection[tuple[str, str]], known: Collection[str]
) -> list[Thing]:
    """The things that are left to make, of plugins that are not `known`; `made` there already.

    Raises ValueError for whatever is none of these.
    """
    every = list(things)
    absent = {t.name.removeprefix(VERSIONS) for t in every if t.name.startswith(VERSIONS)}
    absent -= set(known)
    left = [t for t in every if (t.type, t.name) not in made]
    for thing in left:
        owner = thing.table.removeprefix(VERSIONS).partition("_")[0]
        guard = thing.type == "trigger" and is_guard(thing.table, thing.sql or "")
        if owner not in absent or (thing.type == "trigger" and not guard):
            raise ValueError(f"its schema holds a thing that no plugin makes: {thing.told}")
    return sorted(left, key=lambda t: t.type != "table")


def make(connection: sqlite3.Connection, things: Iterable[Thing]) -> None:
    """Make them, with no power to do anything else; raises sqlite3.DatabaseError where refused."""
    for thing in things:
        if thing.type == "trigger":  # word for word one of ours
            connection.execute(thing.sql or "")
            continue
        with _watched(connection, thing):
            connection.execute(thing.sql or "")


@contextmanager
def _watched(connection: sqlite3.Connection, thing: Thing) -> Iterator[None]:
    connection.set_authorizer(_authorizer(thing))
    try:
        yield
    finally:
        connection.set_authorizer(None)


def _authorizer(thing: Thing) -> Any:
    def allowed(action: int, one: str | None, two: str | None, where: str | None, *_: Any) -> int:
        if where not in (None, "main"):
            return sqlite3.SQLITE_DENY
        if action == sqlite3.SQLITE_CREATE_TABLE:
            fine = thing.type == "table" and one == thing.name
        elif action == sqlite3.SQLITE_CREATE_INDEX:  # also one that a table makes for its keys
            fine = two == thing.table
        elif action == sqlite3.SQLITE_FUNCTION:
            fine = (two or "").lower() in FUNCTIONS
        elif action in (sqlite3.SQLITE_INSERT, sqlite3.SQLITE_UPDATE, sqlite3.SQLITE_READ):
            fine = one in (*SCHEMA_TABLES, thing.table)
        else:
            fine = action == sqlite3.SQLITE_REINDEX
        return sqlite3.SQLITE_OK if fine else sqlite3.SQLITE_DENY

    return allowed


@contextmanager
def bounded(connection: sqlite3.Connection) -> Iterator[Callable[[], None]]:
    """A connection that takes no long value, and works for about a second at most.

    Gives a function to call for another second.
    """
    for limit, most in LIMITS.items():
        connection.setlimit(limit, most)
    connection.execute("PRAGMA trusted_schema = OFF")
    looks = 0

    def look() -> int:
        nonlocal looks
        looks += 1
        return int(looks * STEPS > MOST_STEPS)

    def more() -> None:
        nonlocal looks
        looks = 0

    connection.set_progress_handler(look, STEPS)
    try:
        yield more
    finally:
        connection.set_progress_handler(None, 0)


def computed_columns(connection: sqlite3.Connection, table: str) -> list[str]:
    """The columns that SQLite works out from others when they are read."""
    rows = connection.execute("SELECT name, hidden FROM pragma_table_xinfo(?)", (table,))
    return [name for name, hidden in rows if hidden]
