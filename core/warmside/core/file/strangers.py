"""What stands in a file though no migration made it: triggers, views, tables of no plugin.

Looked for at every opening, since a trigger acts by itself at the next write. No heavy imports.
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from warmside.core.record.guards import is_guard
from warmside.core.record.owners import CORE_TABLES, VERSIONS, owner_of

SWELLING = re.compile(
    r"\b(zeroblob|randomblob|hex|printf|format|replace|char|concat|concat_ws)\b\W{0,9}\(|/\*", re.I
)
WORKED_OUT = re.compile(r"\bAS\s*\(|\bGENERATED\b", re.I)
SCHEMA = "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY rowid"


class Thing(NamedTuple):
    """An entry of a file's schema, as SQLite keeps it."""

    type: str  # table, index, trigger or view
    name: str
    table: str
    sql: str | None

    @property
    def told(self) -> str:
        """The thing as a keeper is told of it."""
        on = f" on {self.table}" if self.name != self.table else ""
        return f"{self.type} {self.name}{on}"

    @property
    def acts(self) -> bool:
        """Whether it does something by itself when it is read or written, or only lies there."""
        made_up = self.type == "table" and not _is_plain(self)
        return self.type in ("trigger", "view") or made_up or reckons(self)


def schema_of(connection: sqlite3.Connection) -> list[Thing]:
    """All that a file holds, in the order in which it was made."""
    return [Thing(*row) for row in connection.execute(SCHEMA)]


def plain_tables(things: Iterable[Thing]) -> list[str]:
    """The names of the tables that hold their own rows; not views, nor what a module makes up."""
    return [t.name for t in things if t.type == "table" and _is_plain(t)]


def _is_plain(thing: Thing) -> bool:
    return (thing.sql or "").upper().startswith("CREATE TABLE ")


def reckons(thing: Thing) -> bool:
    """Whether a table or an index makes values of any size at each row, which none of ours does.

    A check, an index or a column that is worked out may hold such a function. On tables of the core
    nothing is worked out at all; what a plugin does on its own ones may be its business.
    """
    sql = thing.sql or ""
    ours = owner_of(thing.table) == "core" and thing.type in ("table", "index")
    return bool(SWELLING.search(sql)) or (ours and bool(WORKED_OUT.search(sql)))


def strangers(things: Iterable[Thing]) -> Iterator[Thing]:
    """Whatever neither the core nor a plugin that has tables in the file is known to make."""
    every = list(things)
    owners = {"core"} | {
        name.removeprefix(VERSIONS) for name in plain_tables(every) if name.startswith(VERSIONS)
    }
    for thing in every:
        if not _is_known(thing, owners):
            yield thing


def _is_known(thing: Thing, owners: set[str]) -> bool:
    if thing.type == "trigger":
        return is_guard(thing.table, thing.sql or "")
    if thing.name.startswith("sqlite_") and thing.type in ("table", "index"):
        return True  # SQLite itself lets nobody else take such a name
    if reckons(thing):
        return False
    if thing.type == "table":
        whose = thing.name in CORE_TABLES or owner_of(thing.name) in owners
        return _is_plain(thing) and whose
    return thing.type == "index" and owner_of(thing.table) in owners
