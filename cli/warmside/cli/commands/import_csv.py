"""`warmside import`: events from a keeper's spreadsheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Annotated, TypeVar

import typer

from warmside.cli.asking_back import prompted
from warmside.core.answers.parts import Answer
from warmside.core.doing.importing import Import, import_events, replied
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import BadInput
from warmside.core.values.questions import Question, Unanswered
from warmside.faces.progress import progress

app = typer.Typer()
T = TypeVar("T")


@app.command("")
def import_file(
    context: typer.Context,
    source: Annotated[Path, typer.Argument(help="The sheet: CSV, XLSX or ODS.")],
    map_file: Annotated[Path | None, typer.Option("--map", help="A saved mapping.")] = None,
    kind: Annotated[str | None, typer.Option(help="The kind of all rows.")] = None,
    animal: Annotated[str | None, typer.Option(help="The animal of all rows.")] = None,
    date_column: Annotated[str | None, typer.Option(help="Column of the date.")] = None,
    date_format: Annotated[
        str | None, typer.Option(help="Such as DD.MM.YYYY HH:mm; or day first, month first.")
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
    word: Annotated[
        list[str] | None,
        typer.Option(help="What a word of the sheet means: 'Glut=EMB', 'R=refused', 'Bo=skip'."),
    ] = None,
    skip: Annotated[list[str] | None, typer.Option(help="A column that is not read.")] = None,
    cells: Annotated[
        str | None, typer.Option(help="What a grid's cells hold: weighed.mass:g, fed.item.")
    ] = None,
    decimal: Annotated[str | None, typer.Option(help="The mark before decimals.")] = None,
    year: Annotated[str | None, typer.Option(help="The year of days without one.")] = None,
    encoding: Annotated[
        str | None, typer.Option(help="The file's encoding, where it is not seen.")
    ] = None,
    save_map: Annotated[Path | None, typer.Option(help="Save the mapping there.")] = None,
    dry_run: Annotated[bool, typer.Option(help="Only say what would be done.")] = False,
    skip_bad: Annotated[bool, typer.Option(help="Leave out rows that are wrong.")] = False,
    confirm: Annotated[bool, typer.Option(help="Doubtful rows are right.")] = False,
    yes: Annotated[bool, typer.Option("--yes", help="What is believed is right.")] = False,
) -> Answer:
    """Import events; the same file twice changes nothing. All rows are one step, or none is.

    Columns called date, kind, animal, enclosure, note and mass_g or mass need no mapping; with one
    called done, rows left blank there are left out. Any other
    sheet is looked at: what it is believed to hold is told, and only what cannot be known is asked.
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
        "cells": cells,
        "decimal": decimal,
        "year": year,
    }
    wanted = Import(
        source,
        map_file,
        options,
        fields=tuple(field or ()),
        unsaid=tuple(unsaid or ()),
        words=tuple(word or ()),
        skipped=tuple(skip or ()),
        encoding=encoding,
        save_map=save_map,
        dry_run=dry_run,
        skip_bad=skip_bad,
        confirmed=confirm,
        agreed=yes,
    )
    return with_replies(session, wanted)


def with_replies(session: Session, wanted: Import) -> Answer:
    """Import once all is answered; on a terminal each open question is asked."""
    while True:
        try:
            return import_events(session, wanted, counted)
        except Unanswered as missing:
            if not session.asks:
                raise
            question = missing.question
        wanted = with_reply(wanted, question)


def with_reply(wanted: Import, question: Question) -> Import:
    """The request with the answer that is prompted for; asked again where it was none."""
    while True:
        try:
            return replied(wanted, question, prompted(question))
        except BadInput as error:
            typer.echo(str(error), err=True)


def counted(items: Iterable[T], total: int) -> Iterator[T]:
    """The items, while a progress line counts them."""
    with progress("reading", total) as step:
        for item in items:
            step()
            yield item
