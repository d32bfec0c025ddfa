"""`warmside file`: where it is, its units, check, backup, restore, export and import."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.cli.explained import unexplained
from warmside.core.answers.parts import Answer, Fact, Kind, Tone, paragraphs
from warmside.core.doing import filing
from warmside.core.file import backup
from warmside.core.session.session import session_of

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
    from warmside.core.doing.showing import change_units

    return change_units(session_of(context), units)


@app.command()
def check(context: typer.Context) -> Answer:
    """Check the file's pages, references, rules and plugins, and the age of its backups."""
    return filing.check(session_of(context), unexplained)


@app.command("backup")
def back_up(
    context: typer.Context,
    target: Annotated[Path | None, typer.Argument(help="Where to; else beside the file.")] = None,
) -> Answer:
    """Write a verified copy of the file."""
    return filing.back_up(session_of(context), target)


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
        return filing.backups(session)
    return with_questions(session, filing.restore, filing.Restoring(source, yes))


@app.command()
def export(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(help="The archive, such as reptiles.zip.")],
) -> Answer:
    """Write everything to one archive that can be read without warmside."""
    return filing.export(session_of(context), target)


@app.command("import")
def import_archive(
    context: typer.Context,
    source: Annotated[Path, typer.Argument(help="An archive made by `file export`.")],
) -> Answer:
    """Make a new collection file from an archive. Events from a spreadsheet: `warmside import`."""
    from warmside.cli.built_tables import make_tables  # imports Alembic

    return filing.read_archive(session_of(context), source, make_tables)
