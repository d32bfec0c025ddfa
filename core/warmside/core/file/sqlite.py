"""All that is SQLite's own: pragmas, transactions, and how its errors read to a keeper."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.exc import DBAPIError
from sqlalchemy.pool import NullPool

from warmside.core.file.state import BUSY_SECONDS, ENDED, file_problem
from warmside.core.record.step_connection import StepConnection
from warmside.core.values.errors import FileProblem, WarmsideError


def open_engine(path: Path, busy_seconds: float = BUSY_SECONDS) -> Engine:
    """An engine on one file whose transactions the driver does not second-guess.

    isolation_level=None: the driver itself never emits BEGIN, so schema changes are transactional.
    """
    arguments: dict[str, Any] = {
        "isolation_level": None,
        "timeout": busy_seconds,
        "factory": StepConnection,
    }
    if sys.version_info >= (3, 12):
        arguments["autocommit"] = sqlite3.LEGACY_TRANSACTION_CONTROL
    engine = create_engine(
        URL.create("sqlite+pysqlite", database=str(path)),
        connect_args=arguments,
        poolclass=NullPool,
        skip_autocommit_rollback=True,
    )
    event.listen(engine, "connect", _set_pragmas)
    event.listen(engine, "begin", _begin)
    return engine


def _set_pragmas(connection: Any, _record: Any) -> None:
    # EXTRA: with FULL the power may bring the removed journal back, and take a step that was said
    for pragma in ("foreign_keys=ON", "synchronous=EXTRA", "trusted_schema=OFF"):
        connection.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    read_only = connection.get_execution_options().get("read_only")
    connection.exec_driver_sql("BEGIN" if read_only else "BEGIN IMMEDIATE")


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """One consistent snapshot, in which every write fails."""
    with keeper_errors(engine), engine.connect() as raw:
        connection = raw.execution_options(read_only=True)
        _driver(connection).execute("PRAGMA query_only=ON")
        with connection.begin():
            yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One write transaction, committed at the end or rolled back whole, and by nobody within."""
    with keeper_errors(engine), engine.begin() as connection, _ended_only_here(connection):
        yield connection


def give_up(connection: Connection) -> None:
    """Take back what was written so far; nothing more can be."""
    _driver(connection).set_authorizer(None)
    connection.rollback()


@contextmanager
def _ended_only_here(connection: Connection) -> Iterator[None]:
    """Refuse any COMMIT or ROLLBACK within, also one whose failure is passed over."""
    driver = _driver(connection)
    tried = driver.endings
    tried.clear()

    def look(action: int, word: str | None, *_: str | None) -> int:
        if action != sqlite3.SQLITE_TRANSACTION:
            return sqlite3.SQLITE_OK
        tried.append(str(word))
        return sqlite3.SQLITE_DENY

    driver.set_authorizer(look)
    try:
        yield
    except WarmsideError:
        raise
    except Exception as error:
        if tried:
            raise WarmsideError(f"{ENDED}, by {tried[0]}; nothing was written") from error
        raise
    finally:
        driver.set_authorizer(None)
    if tried:
        raise WarmsideError(f"{ENDED}, by {tried[0]}; nothing was written")


@contextmanager
def schema_change(engine: Engine) -> Iterator[Connection]:
    """One transaction in which tables may be rebuilt.

    Foreign keys must be off before BEGIN: inside a transaction the pragma does nothing, and with
    them on the DROP TABLE of a rebuild deletes the rows that refer to the table.
    """
    with keeper_errors(engine), engine.connect() as connection:
        _driver(connection).execute("PRAGMA foreign_keys=OFF")
        with connection.begin():
            with _ended_only_here(connection):
                yield connection
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
            if broken:
                raise FileProblem(f"the change would break references in {broken[0][0]}; undone")


def _driver(connection: Connection) -> StepConnection:
    driver = connection.connection.driver_connection
    assert isinstance(driver, StepConnection)
    return driver


@contextmanager
def keeper_errors(engine: Engine) -> Iterator[None]:
    """SQLite's errors as errors that say what to do."""
    path = Path(str(engine.url.database))
    try:
        yield
    except DBAPIError as error:
        raise file_problem(path, error.orig or error) from error
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
