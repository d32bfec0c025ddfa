"""Series: append-only tables of many rows, such as the readings of a logger, with undo by step.

A series is stored in its key (WITHOUT ROWID), and each row carries the number of its step; there
is neither an image of each row nor an index more. That is at most 20 bytes a row for a sensor, an
instant and a value, if these are whole numbers: seconds since 1970 in UTC, thousandths of a
degree. (A REAL takes 8 bytes where thousandths take 2 or 3.) Undo moves the rows of a step to the
shelf twin of the table.
"""

from __future__ import annotations

from typing import Any

from msgspec import Struct
from sqlalchemy import (
    REAL,
    Column,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
)
from sqlalchemy.schema import SchemaItem

from warmside.core.record import tables
from warmside.core.record.guards import STEP, series_guards

__all__ = ("Inserted", "Series", "create", "declare")

TYPES = (Integer, REAL, Text)
STORED_IN_ITS_KEY: dict[str, Any] = {"sqlite_with_rowid": False, "sqlite_strict": True}


class Series(Struct, frozen=True):
    """The table of a series, and its twin for the rows of undone steps."""

    table: Table
    shelf: Table
    key: tuple[str, ...]

    @property
    def name(self) -> str:
        """The name of the table."""
        return self.table.name

    @property
    def columns(self) -> tuple[str, ...]:
        """The names of its columns in the order in which rows are given; the step is not one."""
        return tuple(c.name for c in self.table.columns if c.name != STEP)


class Inserted(Struct, frozen=True):
    """How many rows were added, and how many were left out because their key was there already."""

    new: int
    same: int


def declare(
    name: str, *items: SchemaItem, key: tuple[str, ...], metadata: MetaData = tables.metadata
) -> Series:
    """Declare a series: its columns (Integer, REAL or Text), those of its key first, and checks.

    Its name begins with the plugin's, as for any table. Raises TypeError for a wrong declaration.
    """
    columns = [item for item in items if isinstance(item, Column)]
    _check(name, columns, key)
    table = Table(name, metadata, *_table_items(name, items, key), **STORED_IN_ITS_KEY)
    shelf = Table(f"{name}_shelf", metadata, *_shelf_items(name, columns, key), **STORED_IN_ITS_KEY)
    return Series(table, shelf, key)


def create(op: Any, name: str, *items: SchemaItem, key: tuple[str, ...]) -> None:
    """Create a series in a plugin's revision: both tables and the guards.

    `op` is Alembic's; the rest is as in the declaration, written out again, since a revision must
    stay what it was.
    """
    columns = [item for item in items if isinstance(item, Column)]
    _check(name, columns, key)
    twin = _shelf_items(name, columns, key)
    op.create_table(name, *_table_items(name, items, key), **STORED_IN_ITS_KEY)
    op.create_table(f"{name}_shelf", *twin, **STORED_IN_ITS_KEY)
    for guard in series_guards(name, key):
        op.execute(guard)


def _check(name: str, columns: list[Column[Any]], key: tuple[str, ...]) -> None:
    names = [c.name for c in columns]
    if STEP in names:
        raise TypeError(f"series {name}: {STEP} is added by itself; leave it out")
    if not key or tuple(names[: len(key)]) != key:
        # integrity_check of SQLite 3.40 sees NULLs that are not there where a key stands behind
        raise TypeError(f"series {name}: the columns of its key {key} come first, not {names}")
    for column in columns:
        if type(column.type) not in TYPES:
            raise TypeError(f"series {name}: {column.name} must be Integer, REAL or Text")


def _table_items(
    name: str, items: tuple[SchemaItem, ...], key: tuple[str, ...]
) -> list[SchemaItem]:
    return [*items, Column(STEP, Integer, nullable=False), _primary(name, key)]


def _shelf_items(name: str, columns: list[Column[Any]], key: tuple[str, ...]) -> list[SchemaItem]:
    """The same columns without references; several undone steps may have had the same row."""
    twins = [Column(c.name, c.type, nullable=c.nullable and c.name not in key) for c in columns]
    step = Column(STEP, Integer, nullable=False)
    return [step, *twins, _primary(f"{name}_shelf", (STEP, *key))]


def _primary(table: str, key: tuple[str, ...]) -> PrimaryKeyConstraint:
    return PrimaryKeyConstraint(*key, name=f"pk_{table}")
