"""`warmside import`: events from a keeper's spreadsheet, saved as CSV."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Annotated, TypeVar

import typer
from msgspec.structs import replace

from warmside.core.answers.parts import Answer
from warmside.core.doing.importing import Import, import_events
from warmside.core.session.session import session_of
from warmside.faces.progress import progress

app = typer.Typer()
T = TypeVar("T")


@app.command("")
def import_file(
    context: typer.Context,
    source: Annotated[Path, typer.Argument(help="The CSV file.")],
    map_file: Annotated[Path | None, typer.Option("--map", help="A saved mapping.")] = None,
    kind: Annotated[str | None, typer.Option(help="The kind of all rows.")] = None,
    animal: Annotated[str | None, typer.Option(help="The animal of all rows.")] = None,
    date_column: Annotated[str | None, typer.Option(help="Column of the date.")] = None,
    date_format: Annotated[
        str | None, typer.Option(help="Such as DD.MM.YYYY or MM/DD/YYYY HH:mm.")
    ] = None,
    animal_column: Annotated[str | None, typer.Option(help="Column of the animal.")] = None,
    enclosure_column: Annotated[str | None, typer.Option(help="Column of the enclosure.")] = None,
    kind_column: Annotated[str | None, typer.Option(help="Column of the kind.")] = None,
    note_column: Annotated[str | None, typer.Option(help="Column of a note.")] = None,
    field: Annotated[
        list[str] | None, typer.Option(help="A field's column: mass=Weight or mass=Weight:g.")
    ] = None,
    unsaid: Annotated[
        list[str] | None,
        typer.Option(help="What rows leave unsaid: fed.outcome=taken, or =skip to leave them out."),
    ] = None,
    encoding: Annotated[str, typer.Option(help="The file's encoding.")] = "utf-8",
    save_map: Annotated[Path | None, typer.Option(help="Save the mapping there.")] = None,
    dry_run: Annotated[bool, typer.Option(help="Only say what would be done.")] = False,
    skip_bad: Annotated[bool, typer.Option(help="Leave out rows that are wrong.")] = False,
    confirm: Annotated[bool, typer.Option(help="Doubtful rows are right.")] = False,
) -> Answer:
    """Import events; the same file twice changes nothing. All rows are one step, or none is.

    Columns called date, kind, animal, enclosure, note and mass_g or mass need no mapping.
    """
    session = session_of(context)
    options = {
        "kind": kind,
        "subject": animal,
        "date": date_column,
        "date_format": date_format,
        "animal": animal_column,
        "enclosure": enclosure_column,
        "kind_column": kind_column,
        "note": note_column,
    }
    texts = (tuple(field or ()), tuple(unsaid or ()))
    wanted = Import(source, map_file, options, *texts, encoding, save_map)
    return import_events(
        session, replace(wanted, dry_run=dry_run, skip_bad=skip_bad, confirmed=confirm), counted
    )


def counted(items: Iterable[T], total: int) -> Iterator[T]:
    """The items, while a progress line counts them."""
    with progress("reading", total) as step:
        for item in items:
            step()
            yield item
