"""Removing a plugin's data from a file, once they are safe in an archive."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.file import sqlite
from warmside.core.file.archives import writing as archive
from warmside.core.file.copies import backup
from warmside.core.file.state import read_state
from warmside.core.record import sums
from warmside.core.record.steps import driver_of
from warmside.core.session.session import Session
from warmside.core.values.errors import Refused
from warmside.core.values.questions import Question

PICTURES = "UPDATE picture SET thing = '', thing_id = NULL WHERE substr(thing, 1, ?) = ?"


class Forgetting(Struct, frozen=True):
    """The plugin, the archive that its data go to first, and its name typed again."""

    name: str
    to: Path | None = None
    typed: str | None = None


def forget_plugin(session: Session, wanted: Forgetting) -> Answer:
    """Export the plugin's tables, then drop them and its state; its events stay in the record."""
    name, to = wanted.name, wanted.to
    warning = f"this removes all data of {name} from the file"
    Question("typed", warning, "--name", exact=name).answered(wanted.typed)
    session.open()
    state = read_state(session.path)
    if name not in state.known:
        raise Refused(f"{name} was never enabled in this file; there is nothing to forget")
    if name in state.enabled:
        raise Refused(f"{name} is enabled; disable it first: warmside plugin disable {name}")
    stamp = session.now.strftime("%Y%m%dT%H%M%S")
    target = to or backup.folder_of(session.path) / f"plugin-{name}-{stamp}.zip"
    if target.exists():
        raise Refused(f"{target} is there already; name another archive with --to")
    owned = [t for t in _tables(session.path) if t.startswith(f"{name}_")]
    versions = [f"schema_version_{name}"] if name in state.revisions else []
    archive.export(session.path, target, session.now, [*owned, *versions, "plugin_state"])
    backup.before(session.path, f"forgetting-{name}", session.now)
    with sqlite.schema_change(sqlite.open_engine(session.path)) as connection:
        driver = driver_of(connection)
        before = sums.wrong(driver)
        for table in [*owned, *versions]:
            connection.exec_driver_sql(f'DROP TABLE "{table}"')
        connection.exec_driver_sql("DELETE FROM plugin_state WHERE name = ?", (name,))
        connection.exec_driver_sql("DELETE FROM scoped_value WHERE plugin = ?", (name,))
        # a picture of a row that is gone stays with its animal or enclosure
        connection.exec_driver_sql(PICTURES, (len(name) + 1, f"{name}."))
        prefix = (len(name) + 1, f"{name}_")
        # no value may be found again that rests on what is gone
        connection.exec_driver_sql("DELETE FROM touched WHERE substr(what, 1, ?) = ?", prefix)
        # undo could not put rows back into tables that are gone
        connection.exec_driver_sql(
            "DELETE FROM change WHERE substr(tbl, 1, ?) = ? OR (tbl = 'plugin_state' AND key = ?)",
            (*prefix, json.dumps({"name": name})),
        )
        driver.executemany("DELETE FROM seal WHERE tbl = ?", [(t,) for t in [*owned, *versions]])
        sums.renew(driver, before)
    return said(f"removed the data of {name}; they are kept in {target}")


def _tables(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return archive.table_names(connection)
