"""`warmside file`: where it is, its units, check, backup, restore, export and import."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.cli.explained import unexplained
from warmside.cli.second_copies import second_folder
from warmside.core.answers.parts import Answer, Fact, Kind, Tone, paragraphs
from warmside.core.doing import filing, putting_back
from warmside.core.file.copies import backup
from warmside.core.file.copies.second import last_copied
from warmside.core.file.state import identity_in
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput

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
        *_newest(context),
        *_second(place.path),
    )
    advice = "warmside file restore" if backup.all_of(place.path) else "warmside new (make it)"
    hints = () if place.path.exists() else paragraphs(advice, tone=Tone.HINT)
    return Answer("", (*facts, *hints))


def _newest(context: typer.Context) -> tuple[Fact, ...]:
    """The day of the newest backup; nothing where there is none."""
    session = session_of(context)
    newest = backup.newest_sound(session.path, session.now.date())
    return (
        ()
        if newest is None
        else (Fact("newest_backup", "newest backup", str(backup.day_of(newest))),)
    )


def _second(path: Path) -> tuple[Fact, ...]:
    """Where second copies go, and the day of the newest; nothing where none are made."""
    folder = second_folder(identity_in(path)) if path.exists() else None
    if folder is None:
        return ()
    last = last_copied(path, folder)
    return (
        Fact("second", "second copies", str(folder)),
        Fact("last_copied", "last copied", str(last) if last else "never"),
    )


@app.command()
def change(
    context: typer.Context,
    units: Annotated[
        str | None,
        typer.Option(
            help="metric, us trade, imperial, or one by one: mass=g,length=in,temperature=F."
        ),
    ] = None,
    dates: Annotated[
        str | None,
        typer.Option(help="What comes first in 4/1/2021: day first, or month first."),
    ] = None,
    keep: Annotated[
        str | None, typer.Option(help="How long copies are kept: '14 days, 8 weeks, 24 months'.")
    ] = None,
    second: Annotated[
        str | None,
        typer.Option(help="A folder for second copies, on another disk; '' for none."),
    ] = None,
) -> Answer:
    """Show units, read days or keep copies in another way; what is stored stays as it is."""
    from warmside.cli.second_copies import keep_second_folder
    from warmside.core.doing.rounds.showing import change_order, change_units

    session = session_of(context)
    copies = keep is not None or second is not None
    if [units is not None, dates is not None, copies].count(True) != 1:
        raise BadInput("name one thing to change: --units, --dates, or --keep and --second")
    if units is not None:
        return change_units(session, units)
    if dates is not None:
        return change_order(session, dates)
    return filing.change_copies(session, filing.Changing(keep, second), keep_second_folder)


@app.command()
def check(context: typer.Context) -> Answer:
    """Check the file's pages, references, rules and plugins, and the age of its backups."""
    return filing.check(session_of(context), unexplained, second_folder)


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
        return putting_back.backups(session)
    return with_questions(session, putting_back.restore, putting_back.Restoring(source, yes))


@app.command()
def recover(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(help="The new file, such as saved.warmside.")],
) -> Answer:
    """Make a new file of the rows that can be read in a damaged one and in its copies."""
    from warmside.cli.built_tables import make_tables  # imports Alembic
    from warmside.core.doing.recovering import recover

    return recover(session_of(context), target, make_tables)


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
