"""`warmside lineage import`: animals and their parents from a CSV file."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, StepWriter, entering, progress, session_of
from warmside.plugins.lineage.pedigree_file.planning import plan as planned
from warmside.plugins.lineage.pedigree_file.rows import FileRow, Plan
from warmside.plugins.lineage.reading.pedigree_file import KNOWN_AS, on_record, read_file
from warmside.plugins.lineage.telling.pedigree_file import refuse_bad, told


def import_(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="CSV with the columns id, dam, sire.")],
    species: Annotated[str, typer.Option(help="Species of rows that name none.")] = "",
    dry_run: Annotated[bool, typer.Option(help="Only say what would be done.")] = False,
    encoding: Annotated[str, typer.Option(help="Encoding of the file.")] = "utf-8",
) -> Answer:
    """Enter ancestors and parents; columns sex, hatched (or date), species and name may be there.

    An id is a code, or the name of an animal on record. Nothing on record is written over.
    """
    session = session_of(context)
    with session.read() as book:
        rows, bad = read_file(file, encoding, book, species)
        made = planned(rows, on_record(book), bad)
    if not dry_run:
        refuse_bad(made, file)
        if made.new or made.fills or made.links:
            with session.step(f"pedigree from {file.name}") as writer:
                write(writer, made)
    return told(made, file, dry_run=dry_run)


def write(writer: StepWriter, plan: Plan) -> None:
    """Enter all that is new, with a line that says how far it is."""
    by_code = {a.code: a.id for a in writer.book.animals.values()}
    with progress("entering", len(plan.new) + len(plan.links)) as done:
        ids = entering.enter(writer, map(newcomer, plan.new), done)
        by_code |= {row.id: id for row, id in zip(plan.new, ids, strict=True)}
        for code, sex, hatched in plan.fills:
            entering.fill(writer, writer.book.animals[by_code[code]], sex, hatched)
        links = (entering.Link(by_code[c], role, by_code[p]) for c, role, p in plan.links)
        entering.link(writer, links, done)


def newcomer(row: FileRow) -> entering.Newcomer:
    """The animal of a row; an id that is no code is kept in the note, where it has a name too."""
    code = entering.code_of(row.id)
    note = "" if code or not row.name else f"{KNOWN_AS}{row.id}"
    name = row.name or row.id
    return entering.Newcomer(name, row.species, code, row.sex, row.hatched, note)
