"""`warmside lineage export`: the pedigree of the collection as CSV."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, said, session_of
from warmside.plugins.lineage.reading.exported import COLUMNS, exported
from warmside.plugins.lineage.reading.kin import is_unsure


def export(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="CSV file to write.")],
) -> Answer:
    """Write all animals with their parents, sex and date of hatching."""
    session = session_of(context)
    with session.ask() as ask:
        rows = exported(ask.book)
        unsure = sum(map(is_unsure, ask.book.parents.values()))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerows([COLUMNS, *rows])
    try:
        with file.open("x", encoding="utf-8") as out:
            out.write(text.getvalue())
    except FileExistsError:
        raise BadInput(f"{file} is there already; name another file") from None
    except OSError as error:
        raise BadInput(f"cannot write {file}: {error.strerror}") from error
    told = f"{len(rows)} animals are in {file}"
    if unsure:
        whose = "1 animal has" if unsure == 1 else f"{unsure} animals have"
        told += f"; {whose} parents that are not certain, which are left out"
    return said(told)
