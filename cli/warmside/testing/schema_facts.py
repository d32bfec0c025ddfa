"""The tables of a file as sets of facts, so that declared ones and migrated ones compare."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Engine, Inspector, inspect


def facts(engine: Engine, own: set[str]) -> dict[str, Any]:
    """The schema as sets, whatever the order in which a rebuild wrote it.

    Alembic's comparison sees neither the text of a CHECK, nor the WHERE of an index, nor STRICT.
    """
    with engine.connect() as connection:
        inspector = inspect(connection)
        return {table: _facts(connection, inspector, table) for table in own}


def _facts(connection: Connection, inspector: Inspector, table: str) -> dict[str, Any]:
    options = [r[4:] for r in _rows(connection, f'PRAGMA table_list("{table}")') if r[0] == "main"]
    if not options:
        return {"missing": True}
    sql = _rows(connection, f"SELECT upper(sql) FROM sqlite_schema WHERE name = '{table}'")[0][0]
    references = _rows(connection, f'PRAGMA foreign_key_list("{table}")')
    return {
        "options": options[0],
        "columns": {r[1:] for r in _rows(connection, f'PRAGMA table_xinfo("{table}")')},
        "foreign keys": {r[2:7] for r in references},
        "indexes": _indexes(connection, table),
        "checks": {
            (c["name"], " ".join(c["sqltext"].split()))
            for c in inspector.get_check_constraints(table)
        },
        "autoincrement": "AUTOINCREMENT" in sql,
    }


def _indexes(connection: Connection, table: str) -> set[tuple[Any, ...]]:
    found = set()
    for _, name, unique, origin, _ in _rows(connection, f'PRAGMA index_list("{table}")'):
        parts = _rows(connection, f'PRAGMA index_xinfo("{name}")')
        columns = tuple(r[2:5] for r in parts if r[5])
        stored = _rows(connection, f"SELECT sql FROM sqlite_schema WHERE name = '{name}'")
        sql = (stored[0][0] if stored else "") or ""  # none for a key WITHOUT ROWID
        said = " ".join(sql.lower().replace('"', "").split())
        found.add((name if origin == "c" else "", unique, origin, columns, said))
    return found


def _rows(connection: Connection, sql: str) -> list[tuple[Any, ...]]:
    return [tuple(r) for r in connection.exec_driver_sql(sql)]
