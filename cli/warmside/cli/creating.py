"""Making a new collection file."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import insert

from warmside.core.file import sqlite
from warmside.core.file.state import APPLICATION_ID
from warmside.core.record import species, tables
from warmside.core.values.errors import FileProblem, Refused
from warmside.core.values.moments import zone_named
from warmside.core.values.quantities import Display, parse_display
from warmside.migrations import CORE, runner


def create_file(path: Path, name: str, zone: str, units: str) -> None:
    """Make a collection file, whole or not at all; raises Refused where there is a file."""
    zone_named(zone)
    if path.exists():
        raise Refused(f"{path} is there already; name another file with --collection")
    part = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _fill(part, name, zone, parse_display(units))
        part.rename(path)
    except OSError as error:
        raise FileProblem(f"cannot make {path}: {error.strerror}") from error
    finally:
        with contextlib.suppress(OSError):  # of which the keeper has been told already
            part.unlink(missing_ok=True)


def _fill(path: Path, name: str, zone: str, display: Display) -> None:
    engine = sqlite.open_engine(path)
    with sqlite.keeper_errors(engine), closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    runner.upgrade(engine, [CORE])
    with sqlite.writing(engine) as connection:
        row = {"id": 1, "name": name, "zone": zone, "units": display.text}
        connection.execute(insert(tables.collection).values(**row))
        rows = [
            {
                "scientific": s.scientific,
                "common": s.common,
                "group": s.group,
                "sex_system": s.sex_system,
            }
            for s in species.shipped()
        ]
        connection.execute(insert(tables.species), rows)
