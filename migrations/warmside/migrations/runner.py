"""Bringing a file's tables up to date. The only place that imports Alembic; import it late."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType
from typing import Any

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine

from warmside.core.file import sqlite
from warmside.core.file.state import is_about_the_file
from warmside.core.record import sums
from warmside.core.record.owners import owner_of
from warmside.core.record.series.sums import wrong_lines
from warmside.core.record.steps import driver_of
from warmside.core.record.tables import metadata
from warmside.core.values.errors import FileProblem, WarmsideError
from warmside.migrations import CORE, Lineage

HERE = Path(__file__).parent
NOTHING: Mapping[Lineage, str] = MappingProxyType({})


def configuration(lineage: Lineage) -> dict[str, Any]:
    """What Alembic must know to see only the tables of one lineage."""

    def include_name(name: str | None, kind: str, _parent: Any) -> bool:
        return kind != "table" or owner_of(name or "") == lineage.owner

    def include_object(_: Any, name: str | None, kind: str, _reflected: bool, _to: Any) -> bool:
        table = name or ""
        return kind != "table" or (
            owner_of(table) == lineage.owner and not table.startswith("schema_version_")
        )

    return {
        "target_metadata": metadata,
        "version_table": lineage.version_table,
        "render_as_batch": True,
        "transactional_ddl": True,  # the default of SQLite's dialect is False
        "include_name": include_name,
        "include_object": include_object,
    }


def _config(lineage: Lineage, connection: Connection) -> Config:
    config = Config()
    config.set_main_option("script_location", _escaped(HERE))
    config.set_main_option("path_separator", "newline")  # a path may contain spaces
    config.set_main_option("version_locations", _escaped(_folder(lineage)))
    config.attributes["connection"] = connection
    config.attributes["configure"] = configuration(lineage)
    return config


def _escaped(path: Path) -> str:
    return str(path).replace("%", "%%")  # the config interpolates


def _folder(lineage: Lineage) -> Path:
    return Path(str(files(lineage.package)))


def script(lineage: Lineage) -> ScriptDirectory:
    """The revisions of a lineage."""
    return ScriptDirectory(str(HERE), version_locations=[str(_folder(lineage))])


def current(connection: Connection, lineage: Lineage) -> str | None:
    """The revision of a lineage at which the file is."""
    options = {"version_table": lineage.version_table}
    return MigrationContext.configure(connection, opts=options).get_current_revision()


def upgrade(
    engine: Engine, lineages: Iterable[Lineage], to: Mapping[Lineage, str] = NOTHING
) -> None:
    """Bring lineages to their heads, core first, all in one transaction or not at all.

    `to` names older revisions at which some of them stop.
    """
    lineages = list(lineages)
    with sqlite.schema_change(engine) as connection, _summed(connection, lineages):
        for lineage in sorted(lineages, key=lambda x: x.owner != "core"):
            before = _schema(connection)
            _upgrade(connection, lineage, to.get(lineage, "head"))
            if lineage.owner != "core":
                _check_own(lineage, before ^ _schema(connection))


@contextmanager
def _summed(connection: Connection, lineages: list[Lineage]) -> Iterator[None]:
    """Checksums of what revisions change are worked out anew; what was wrong stays wrong."""
    driver = driver_of(connection)
    core = any(lineage.owner == "core" for lineage in lineages)
    if core:
        before = sums.wrong(driver)
    elif sums.has_sums(driver):
        tables, series = sums.table_problems(driver), wrong_lines(driver)
        before = sums.Wrong(tables=frozenset(tables), series=frozenset(series))
    yield
    if core and sums.has_sums(driver):
        sums.renew(driver, before)
    elif sums.has_sums(driver):
        sums.renew_series(driver, before)
        sums.seal(driver, set(sums.sealed_tables(driver)) - before.tables)


def _schema(connection: Connection) -> set[tuple[str, str]]:
    """Every table and index of the file: the table's name and the statement."""
    rows = connection.exec_driver_sql(
        "SELECT tbl_name, sql FROM sqlite_schema WHERE sql IS NOT NULL"
    )
    return {(row[0], row[1]) for row in rows}


def _check_own(lineage: Lineage, changed: Iterable[tuple[str, str]]) -> None:
    """Raise FileProblem where a plugin's revisions touched a table that is not its own."""
    for table in sorted({table for table, _ in changed}):
        if table != lineage.version_table and owner_of(table) != lineage.owner:
            raise FileProblem(
                f"plugin {lineage.owner} makes or changes the table {table}, which is not its own; "
                f"its tables are named {lineage.owner}_...; nothing was changed"
            )


def check_known(lineage: Lineage, have: str | None) -> None:
    """Raise FileProblem where the file is at a revision that this program does not know."""
    with _failing_whole(lineage):
        known = {r.revision for r in script(lineage).walk_revisions()}
    if have is not None and have not in known:
        raise FileProblem(
            f"the file was written by a newer version ({lineage.owner} is at {have}); "
            "install that version of warmside or of the plugin"
        )


def _upgrade(connection: Connection, lineage: Lineage, to: str) -> None:
    check_known(lineage, current(connection, lineage))
    if lineage.needs_core is not None:
        _check_core(connection, lineage)
    with _failing_whole(lineage):
        command.upgrade(_config(lineage, connection), to)


@contextmanager
def _failing_whole(lineage: Lineage) -> Iterator[None]:
    """Whatever a revision raises is told as one error, and leaves the file as it was.

    What is no fault of the revision (a full disk, a locked file) is told by the open file instead.
    """
    try:
        yield
    except WarmsideError:
        raise
    except Exception as error:
        if is_about_the_file(error):
            raise
        raise FileProblem(
            f"the tables of {lineage.owner} cannot be brought up to date "
            f"({type(error).__name__}: {' '.join(str(error).split())[:200]}); nothing was changed"
        ) from error


def _check_core(connection: Connection, lineage: Lineage) -> None:
    have = current(connection, CORE)
    behind = {r.revision for r in script(CORE).iterate_revisions(have, "base")} if have else set()
    if lineage.needs_core not in behind:
        raise FileProblem(
            f"plugin {lineage.owner} needs core tables {lineage.needs_core}, the file has {have}"
        )


def differences(engine: Engine, lineage: Lineage, tables: str) -> list[Any]:
    """Where the declared tables and the migrated ones disagree; nothing is as it should be."""
    import_module(tables)
    with sqlite.reading(engine) as connection:
        context = MigrationContext.configure(connection, opts=configuration(lineage))
        return list(compare_metadata(context, metadata))
