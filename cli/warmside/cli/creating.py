"""Making a new collection file."""

from __future__ import annotations

import contextlib
import secrets
import sqlite3
from contextlib import closing
from pathlib import Path

from msgspec import Struct
from sqlalchemy import insert

from warmside.core.answers.parts import Answer, said
from warmside.core.file import sqlite
from warmside.core.file.copies import backup
from warmside.core.file.copies.keeping import USUAL
from warmside.core.file.half_made import begin, part_beside
from warmside.core.file.state import APPLICATION_ID
from warmside.core.record import sums, tables
from warmside.core.record.species import known as species
from warmside.core.record.steps import driver_of
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.display import Display, parse_display
from warmside.core.values.errors import BadInput, FileProblem, Refused
from warmside.core.values.moments import zone_named
from warmside.core.values.questions import Question
from warmside.migrations import CORE, runner

US_FAMILIES = ("US/", "America/Indiana/", "America/Kentucky/", "America/North_Dakota/")
US_ZONES = frozenset(
    {"Pacific/Honolulu"}
    | {f"America/{place}" for place in ("New_York", "Detroit", "Chicago", "Menominee", "Denver")}
    | {f"America/{place}" for place in ("Boise", "Phoenix", "Los_Angeles", "Anchorage", "Juneau")}
    | {f"America/{place}" for place in ("Sitka", "Metlakatla", "Yakutat", "Nome", "Adak")}
)
"""The zones whose country is US in the IANA database's zone.tab."""


class NewCollection(Struct, frozen=True):
    """What is typed for a new collection; `own_zone` is proposed where none is."""

    name: str | None = None
    zone: str | None = None
    units: str | None = None
    own_zone: str = ""


def make_collection(session: Session, wanted: NewCollection) -> Answer:
    """Make the collection file of the session; asks for what is missing."""
    path = session.path
    if path.exists():
        raise Refused(f"{path} is there already; name another file with --collection")
    if copies := backup.all_of(path):
        found = counted(len(copies), "copy of it lies", "copies of it lie")
        raise Refused(
            f"{path} is gone, but {found} in {backup.folder_of(path)}; put "
            "the newest back: warmside file restore; to begin anew move that folder away first"
        )
    name = _name(
        Question("name", "Name of the collection", "--name", check=_name).answered(wanted.name)
    )
    home = Question("zone", "Home time zone", "--zone", wanted.own_zone, check=zone_named)
    zone = home.answered(wanted.zone)
    proposed = "us trade" if in_the_us(zone) else "metric"
    kinds = Question("units", "Units", "--units", proposed, check=parse_display)
    display = parse_display(kinds.answered(wanted.units))
    create_file(path, name, zone, display.text)
    return said(
        f"made the collection {name!r} in {path}",
        hints=[
            "warmside enclosure add NAME --room ROOM",
            "warmside animal add NAME --species SPECIES --enclosure CODE",
        ],
    )


def _name(typed: str) -> str:
    if not typed.strip():
        raise BadInput("the collection needs a name: --name 'Reptile room'")
    return typed.strip()


def in_the_us(zone: str) -> bool:
    """Whether a time zone of the IANA database is one of the United States."""
    return zone in US_ZONES or zone.startswith(US_FAMILIES)


def create_file(path: Path, name: str, zone: str, units: str) -> None:
    """Make a collection file, whole or not at all; raises Refused where there is a file."""
    zone_named(zone)
    if path.exists():
        raise Refused(f"{path} is there already; name another file with --collection")
    part = part_beside(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        begin(part)
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
        row = {
            "id": 1,
            "name": name,
            "zone": zone,
            "units": display.text,
            "identity": secrets.token_hex(16),
            "keeping": USUAL.text,
        }
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
        sums.seal(driver_of(connection), ["collection", "species"])
