"""Whether each value in a table is of the kind that its column declares.

SQLite keeps a text in a column of numbers without a word, and checks no length of a text.
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator

STORED = {  # what a column may hold, by a word in its declared type
    "INT": ("integer",),
    "BOOL": ("integer",),
    "CHAR": ("text",),
    "TEXT": ("text",),
    "REAL": ("real", "integer"),
    "DOUB": ("real", "integer"),
    "FLOA": ("real", "integer"),
}
LENGTH = re.compile(r"CHAR\((\d+)\)")


def check(connection: sqlite3.Connection, tables: list[str]) -> Iterator[tuple[str, str]]:
    """What was looked at of each table, and the first column in it that is wrong."""
    for table in tables:
        problems = list(_columns(connection, table))
        yield f"values in {table}", "; ".join(problems)


def _columns(connection: sqlite3.Connection, table: str) -> Iterator[str]:
    rows = connection.execute(
        'SELECT name, upper(type), "notnull", pk FROM pragma_table_info(?)', (table,)
    ).fetchall()
    for name, declared, needed, key in rows:
        wrong = [_wrong_kind(name, declared), f'"{name}" IS NULL' if needed or key else ""]
        if length := LENGTH.search(declared):
            wrong.append(f'length("{name}") > {length[1]}')
        if "BOOL" in declared:
            wrong.append(f'"{name}" NOT IN (0, 1)')
        where = " OR ".join(w for w in wrong if w)
        if where and (number := _count(connection, table, where)):
            yield f"{name}: {number} of another kind than {declared.lower()}"


def _wrong_kind(name: str, declared: str) -> str:
    kinds = next((k for word, k in STORED.items() if word in declared), ())
    fine = ", ".join(f"'{k}'" for k in (*kinds, "null"))
    return f'typeof("{name}") NOT IN ({fine})' if kinds else ""


def _count(connection: sqlite3.Connection, table: str, where: str) -> int:
    query = f'SELECT count(*) FROM "{table}" WHERE {where}'
    return int(connection.execute(query).fetchone()[0])
