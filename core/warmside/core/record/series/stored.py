"""Rows that were given to a series, as SQLite holds them."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Sequence
from types import NoneType
from typing import Any

from warmside.core.record.series.declared import Series

Row = Sequence[Any]
# what a column takes as it is; anything else SQLite makes into what it can
TAKEN: dict[str, set[type]] = {
    "INTEGER": {int, NoneType},
    "REAL": {float, int, NoneType},
    "TEXT": {str, NoneType},
}


def as_stored(driver: sqlite3.Connection, to: Series, rows: list[Row]) -> Iterable[Row]:
    """The rows as they lie in the series now, with their columns in the order of their names."""
    columns = dict(zip(to.columns, zip(*rows, strict=True), strict=True)) if rows else {}
    if all(set(map(type, columns[c])) <= TAKEN[_type(to, c)] for c in columns):
        reals = {c: _reals(v) for c, v in columns.items() if _type(to, c) == "REAL"}
        return zip(*((columns | reals)[c] for c in sorted(columns)), strict=True)
    return _read_back(driver, to, rows)


def _type(to: Series, column: str) -> str:
    return type(to.table.columns[column].type).__name__.upper()


def _reals(values: Iterable[Any]) -> list[float | None]:
    """As SQLite keeps them: whole numbers as reals, what is no number as nothing, no minus zero."""
    return [None if v is None or v != v else v + 0.0 for v in values]


def _read_back(driver: sqlite3.Connection, to: Series, rows: list[Row]) -> list[Row]:
    names = ", ".join(f'"{c}"' for c in sorted(to.columns))
    where = " AND ".join(f'"{c}" = ?' for c in to.key)
    query = f'SELECT {names} FROM "{to.name}" WHERE {where}'
    return [driver.execute(query, tuple(row[: len(to.key)])).fetchone() for row in rows]
