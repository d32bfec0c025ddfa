"""Which later step rests on rows of a series, by the file's own foreign keys."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from sqlalchemy import Connection

Columns = Mapping[str, str]  # of the referring table -> of the series


def on_series(
    connection: Connection, name: str, step_id: int, stepped: set[str]
) -> tuple[int, str] | None:
    """Number and words of the last later step in force that refers to the step's rows.

    `stepped` are the tables whose rows carry their step; what wrote any other stands in `change`.
    """
    found = []
    for table, columns in _references(connection, name):
        query = _by_step(table, name, columns) if table in stepped else _by_change(name, columns)
        values = (step_id, step_id) if table in stepped else (step_id, step_id, table)
        found.append(connection.exec_driver_sql(query, values).scalar())
    last = max((number for number in found if number is not None), default=None)
    row = connection.exec_driver_sql("SELECT id, words FROM step WHERE id = ?", (last,)).first()
    return None if row is None else (row[0], row[1])


def _references(connection: Connection, name: str) -> Iterator[tuple[str, Columns]]:
    """Each table that refers to the series, once a reference, with the columns on both sides."""
    key = connection.exec_driver_sql(
        "SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk", (name,)
    )
    names = [row[0] for row in key]
    rows = connection.exec_driver_sql(
        'SELECT m.name, f.id, f.seq, f."from", f."to" FROM sqlite_schema m JOIN '
        "pragma_foreign_key_list(m.name) f WHERE m.type = 'table' AND f.\"table\" = ? "
        "COLLATE NOCASE",
        (name,),
    )
    found: dict[tuple[str, int], dict[str, str]] = defaultdict(dict)
    for table, id, place, mine, theirs in rows:
        found[table, id][mine] = theirs or names[place]
    for (table, _), columns in found.items():
        yield table, columns


def _by_step(table: str, name: str, columns: Columns) -> str:
    same = " AND ".join(f'r."{theirs}" = c."{mine}"' for mine, theirs in columns.items())
    return (
        f'SELECT max(c.step_id) FROM "{table}" c JOIN "{name}" r ON {same} '
        "WHERE c.step_id > ? AND r.step_id = ?"
    )


def _by_change(name: str, columns: Columns) -> str:
    same = " AND ".join(
        f'r."{theirs}" = json_extract(c.after, \'$."{mine}"\')' for mine, theirs in columns.items()
    )
    return (
        "SELECT max(c.step_id) FROM change c JOIN step s ON s.id = c.step_id WHERE s.id > ? AND "
        f'EXISTS (SELECT 1 FROM "{name}" r WHERE r.step_id = ? AND {same}) AND c.tbl = ? '
        "AND s.kind = 'do' AND s.undone_by IS NULL"
    )
