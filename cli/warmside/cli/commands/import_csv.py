"""`warmside import`: events from a keeper's spreadsheet."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Annotated, Any, TypeVar

import typer
from msgspec.structs import replace

from warmside.cli.asking_back import prompted
from warmside.core.answers.parts import Answer
from warmside.core.csv.pipes import is_pipe
from warmside.core.csv.rows import bytes_of
from warmside.core.doing.importing import Import, import_events, replied
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import BadInput, Doubtful
from warmside.core.values.questions import Question, Unanswered
from warmside.faces.progress import progress, waiting

app = typer.Typer()
T = TypeVar("T")
OPTIONS = {
    "kind": "kind",
    "animal": "subject",
    "date_column": "date",
    "date_format": "date_format",
    "animal_column": "animal",
    "enclosure_column": "enclosure",
    "kind_column": "kind_column",
    "note_column": "note",
    "cells": "cells",
    "decimal": "decimal",
    "year": "year",
}
"""What an option is called in the mapping over which it goes."""


Sheet = Annotated[Path, typer.Argument(help="The sheet: CSV, XLSX or ODS.")]
Map = Annotated[Path | None, typer.Option("--map", help="A saved mapping.")]
KindOf = Annotated[str | None, typer.Option(help="The kind of all rows.")]
AnimalOf = Annotated[str | None, typer.Option(help="The animal of all rows.")]
DateColumn = Annotated[str | None, typer.Option(help="Column of the date.")]
DateFormat = Annotated[
    str | None, typer.Option(help="Such as DD.MM.YYYY HH:mm; or day first, month first.")
]
AnimalColumn = Annotated[str | None, typer.Option(help="Column of the animal.")]
EnclosureColumn = Annotated[str | None, typer.Option(help="Column of the enclosure.")]
KindColumn = Annotated[str | None, typer.Option(help="Column of the kind.")]
NoteColumn = Annotated[str | None, typer.Option(help="Column of a note.")]
Field = Annotated[
    list[str] | None, typer.Option(help="A field's column: mass=Weight or mass=Weight:g.")
]
Unsaid = Annotated[
    list[str] | None,
    typer.Option(help="What rows leave unsaid: fed.outcome=taken, or =skip to leave them out."),
]
Word = Annotated[
    list[str] | None,
    typer.Option(help="What a word of the sheet means: 'Glut=EMB', 'R=refused', 'Bo=skip'."),
]
Skip = Annotated[list[str] | None, typer.Option(help="A column that is not read.")]
Cells = Annotated[
    str | None, typer.Option(help="What a grid's cells hold: weighed.mass:g, fed.item.")
]
Decimal = Annotated[str | None, typer.Option(help="The mark before decimals.")]
Year = Annotated[str | None, typer.Option(help="The year of days without one.")]
Encoding = Annotated[str | None, typer.Option(help="The file's encoding, where it is not seen.")]
SaveMap = Annotated[Path | None, typer.Option(help="Save the mapping there.")]
DryRun = Annotated[bool, typer.Option(help="Only say what would be done.")]
SkipBad = Annotated[bool, typer.Option(help="Leave out rows that are wrong.")]
Confirm = Annotated[bool, typer.Option(help="Doubtful rows are right.")]
Yes = Annotated[bool, typer.Option("--yes", help="What is believed is right.")]


@app.command("")
def import_file(
    context: typer.Context,
    source: Sheet,
    map_file: Map = None,
    kind: KindOf = None,
    animal: AnimalOf = None,
    date_column: DateColumn = None,
    date_format: DateFormat = None,
    animal_column: AnimalColumn = None,
    enclosure_column: EnclosureColumn = None,
    kind_column: KindColumn = None,
    note_column: NoteColumn = None,
    field: Field = None,
    unsaid: Unsaid = None,
    word: Word = None,
    skip: Skip = None,
    cells: Cells = None,
    decimal: Decimal = None,
    year: Year = None,
    encoding: Encoding = None,
    save_map: SaveMap = None,
    dry_run: DryRun = False,
    skip_bad: SkipBad = False,
    confirm: Confirm = False,
    yes: Yes = False,
) -> Answer:
    """Import events; the same file twice changes nothing. All rows are one step, or none is.

    Columns called date, kind, animal, enclosure, note and mass_g or mass need no mapping; with one
    called done, rows left blank there are left out. Any other
    sheet is looked at: what it is believed to hold is told, and only what cannot be known is asked.
    What a terminal was answered is kept beside the sheet, for the --map of the next one.
    """
    return with_replies(session_of(context), requested(context.params))


def requested(given: Mapping[str, Any]) -> Import:
    """The request for what was typed, by the names of the command's parameters."""
    return Import(
        source=Path(given["source"]),
        map_file=_path(given["map_file"]),
        options={name: given[typed] for typed, name in OPTIONS.items()},
        fields=tuple(given["field"] or ()),
        unsaid=tuple(given["unsaid"] or ()),
        words=tuple(given["word"] or ()),
        skipped=tuple(given["skip"] or ()),
        encoding=given["encoding"],
        save_map=_path(given["save_map"]),
        dry_run=given["dry_run"],
        skip_bad=given["skip_bad"],
        confirmed=given["confirm"],
        agreed=given["yes"],
    )


def _path(typed: str | None) -> Path | None:
    return Path(typed) if typed else None


def with_replies(session: Session, wanted: Import) -> Answer:
    """Import once all is answered; on a terminal each open question is asked."""
    _fetch(session, wanted.source)
    while True:
        try:
            return import_events(session, wanted, counted)
        except Unanswered as missing:
            if not session.asks:
                raise
            question = missing.question
        except Doubtful as doubt:
            if not session.asks:
                raise
            question = Question("confirmed", f"{doubt}; is it right?", "--confirm", yes_or_no=True)
        wanted = with_map(with_reply(wanted, question))


def _fetch(session: Session, source: Path) -> None:
    """Wait for all that comes out of a pipe before the collection is read; a file need not wait."""
    if is_pipe(source):
        session.open()  # where there is none yet, nothing is waited for
        with waiting(lambda came: _so_far(source, came)) as told:
            bytes_of(source, told)


def _so_far(source: Path, came: int) -> str:
    said = f"{came / 1e6:.1f} MB so far" if came else "nothing has come yet"
    return f"{said} (Ctrl-C stops) from {source}"  # the end is cut where the line is too narrow


def with_map(wanted: Import) -> Import:
    """The request that keeps what was answered beside the sheet, for the next one like it."""
    given = wanted.save_map or wanted.map_file or wanted.dry_run or is_pipe(wanted.source)
    path = wanted.source.with_suffix(".map.toml")
    if given or not wanted.answers or path.exists() or not os.access(path.parent, os.W_OK):
        return wanted
    return replace(wanted, save_map=path)


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
