"""`warmside file`: where it is, its units, check, backup, restore, export and import."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.commands.asking import confirm
from warmside.core.answers.parts import (
    Answer,
    Cell,
    Column,
    Fact,
    Kind,
    Table,
    Tone,
    Words,
    paragraphs,
    said,
)
from warmside.core.asking.checks import plugin_checks
from warmside.core.file import archive, backup, restoring
from warmside.core.file.checking import check_file
from warmside.core.file.state import read_state
from warmside.core.session.session import Session, session_of
from warmside.core.values.display import Display, parse_display
from warmside.core.values.errors import BadInput, FileProblem, NotFound, Refused
from warmside.core.values.measures.measure import measure_of
from warmside.core.values.units import Unit
from warmside.core.values.units import units as units_known

UNIT_COLUMNS = (
    Column("quantity", "quantity"),
    Column("unit", "unit"),
    Column("choices", "it can be", Kind.LIST),
)

app = typer.Typer(help="The collection file: check, backup, restore, export.", no_args_is_help=True)


@app.command()
def where(context: typer.Context) -> Answer:
    """Say which collection file is used, and why."""
    place = context.meta["warmside.place"]
    facts = (
        Fact("path", "collection file", str(place.path)),
        Fact("why", "why", place.why),
        Fact("exists", "exists", place.path.exists(), Kind.YESNO),
        Fact("backups", "backups", str(backup.folder_of(place.path))),
    )
    hints = () if place.path.exists() else paragraphs("warmside new (make it)", tone=Tone.HINT)
    return Answer("", (*facts, *hints))


@app.command()
def change(
    context: typer.Context,
    units: Annotated[
        str,
        typer.Option(
            help="metric, us trade, imperial, or one by one: mass=g,length=in,temperature=F."
        ),
    ],
) -> Answer:
    """Show quantities in other units from now on; what is stored stays as it is."""
    from warmside.core.record.entries import change_display

    with session_of(context).step("changed units") as writer:
        display = change_display(writer, parse_display(units, writer.book.home.display))
        writer.say(f"changed units to {display.text}")
    return said(
        f"units are now {display.text}",
        Table("units", UNIT_COLUMNS, tuple(_unit_rows(display)), "Shown and typed in"),
        hints=["warmside undo (take it back)"],
    )


def _unit_rows(display: Display) -> Iterator[tuple[Cell, ...]]:
    """Each quantity that can be shown in more than one unit, and the one that is shown."""
    for unit in units_known():
        scales = [s for s in measure_of(unit).scales if s.names[0]]
        if len(scales) > 1:
            yield unit.words, display.style(unit).table.symbol, tuple(s.names[0] for s in scales)


@app.command()
def check(context: typer.Context) -> Answer:
    """Check the file's pages, references, rules and plugins, and the age of its backups."""
    session = session_of(context)
    found = check_file(session.path, session.open().host.kinds, session.now)
    with session.ask() as ask:
        found = [*found[:-1], *plugin_checks(ask), found[-1]]
    columns = (Column("what", "checked"), Column("problem", "problem"))
    rows = tuple((c.what, c.problem or "none") for c in found)
    bad = [c for c in found if c.problem]
    verdict = f"{len(bad)} of {len(found)} need attention" if bad else "all is well"
    code = FileProblem.exit_code if any("backups" not in c.what for c in bad) else 0
    facts = Fact("ok", "the file is sound", not code, Kind.YESNO)
    parts = (Words(verdict), facts, Table("checks", columns, rows))
    return Answer("", parts, exit_code=code)


@app.command("backup")
def back_up(
    context: typer.Context,
    target: Annotated[Path | None, typer.Argument(help="Where to; else beside the file.")] = None,
) -> Answer:
    """Write a verified copy of the file."""
    session = session_of(context)
    need_file(session)
    if target is not None and target.exists():
        raise Refused(f"{target} is there already; name another file")
    read_state(session.path)
    if target is None:
        made = backup.asked_for(session.path, session.now)
    else:
        made = backup.make(session.path, target)
    return said(f"made a verified copy: {made}")


def need_file(session: Session) -> None:
    """Raise NotFound where there is no collection file."""
    if not session.path.exists():
        raise NotFound(f"there is no collection at {session.path} yet; make one with: warmside new")


@app.command()
def restore(
    context: typer.Context,
    source: Annotated[
        Path | None, typer.Argument(help="The backup; else the newest beside the file.")
    ] = None,
    yes: Annotated[bool, typer.Option(help="Do it without asking.")] = False,
    list_only: Annotated[bool, typer.Option("--list", help="Only list the backups.")] = False,
) -> Answer:
    """Put a backup in the place of the file; the file as it is now is kept beside it."""
    session = session_of(context)
    if list_only:
        return listed(session.path)
    chosen = source or backup.newest(session.path)
    if not chosen.exists():
        raise NotFound(f"there is no backup {chosen}; list them: warmside file restore --list")
    if zipfile.is_zipfile(chosen):
        raise BadInput(
            f"{chosen} is an archive; read it into a new file: "
            f"warmside --collection NEW-FILE file import {chosen}"
        )
    read_state(chosen)
    confirm(session, yes, f"Put {chosen.name} in the place of {session.path}?")
    kept = restoring.put_back(chosen, session.path, session.now)
    more = f"; the file as it was is kept in {kept}" if kept else ""
    return said(f"restored {session.path} from {chosen}{more}")


def listed(path: Path) -> Answer:
    """The backups of the file, newest first."""
    columns = (Column("backup", "backup"), Column("bytes", "bytes", Unit.COUNT))
    rows = tuple((str(p), p.stat().st_size) for p in backup.all_of(path))
    return Answer("Backups", (Table("backups", columns, rows, empty="there is no backup yet"),))


@app.command()
def export(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(help="The archive, such as reptiles.zip.")],
) -> Answer:
    """Write everything to one archive that can be read without warmside."""
    session = session_of(context)
    need_file(session)
    if target.exists():
        raise Refused(f"{target} is there already; name another file")
    rows = archive.export(session.path, target, session.now)
    return said(f"wrote {rows} rows to {target}; a README inside says how to read it")


@app.command("import")
def import_archive(
    context: typer.Context,
    source: Annotated[Path, typer.Argument(help="An archive made by `file export`.")],
) -> Answer:
    """Make a new collection file from an archive. Events from a spreadsheet: `warmside import`."""
    session = session_of(context)
    rows = archive.restore(source, session.path)
    return said(f"made {session.path} with {rows} rows from {source}")
