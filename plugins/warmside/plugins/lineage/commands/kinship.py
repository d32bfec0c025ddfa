"""`warmside lineage kinship`: inbreeding and kinship in a pedigree file, without a collection."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Column, Fact, Part, Table, Unit, csv_files, paragraphs
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship as kinship_of
from warmside.plugins.lineage.kinship.pedigree import Loop, Pedigree, Row, pedigree
from warmside.plugins.lineage.telling.kinship import meaning

COLUMNS = (Column("id", "id"), Column("inbreeding", "inbreeding", Unit.RATIO))


def kinship(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="CSV with the columns id, dam, sire.")],
    pair: Annotated[
        tuple[str, str] | None, typer.Option(help="Two ids, whose kinship is given too.")
    ] = None,
) -> Answer:
    """The inbreeding of every animal of a pedigree file; with --pair the kinship of two."""
    known = read_pedigree(file)
    found = inbreeding(known)
    by_id = {str(id): f for id, f in zip(known.ids, found, strict=True)}
    parts: list[Part] = []
    if pair is not None:
        places = [_place(known, id, file) for id in pair]
        value = kinship_of(known, found, places[0], places[1])
        parts += [Fact("kinship", f"kinship of {pair[0]} and {pair[1]}", value, Unit.RATIO)]
        parts += paragraphs(*meaning(value)) if pair[0] != pair[1] else ()
    inbred = tuple((id, f) for id, f in by_id.items() if f > 0)
    parts.append(Table("animals", COLUMNS, inbred, "Inbred animals", "no animal is inbred"))
    return Answer(f"Pedigree in {file.name}", tuple(parts), extra={"inbreeding": by_id})


def _place(known: Pedigree, id: str, file: Path) -> int:
    if id not in known.place:
        raise BadInput(f"{file} has no animal {id!r}; --pair names two ids of it")
    return known.place[id]


def read_pedigree(file: Path) -> Pedigree:
    """The pedigree of a file; BadInput names the line that is wrong."""
    lines: dict[str, int] = {}
    rows = []
    for row in csv_files.rows_with(file, ("id", "dam", "sire")):
        id, dam, sire = row.cells.values()
        if not id:
            raise BadInput(f"{file}, line {row.line}: the id is missing")
        if id in lines:
            raise BadInput(f"{file}, line {row.line}: {id} is there in line {lines[id]}, too")
        lines[id] = row.line
        rows.append((row.line, Row(id, dam or None, sire or None)))
    _check_parents(file, rows, lines)
    try:
        return pedigree(row for _, row in rows)
    except Loop as loop:
        places = ", ".join(map(str, sorted({lines[str(id)] for id in loop.ids})))
        raise BadInput(f"{file}, lines {places}: {loop}") from None


def _check_parents(file: Path, rows: list[tuple[int, Row]], lines: dict[str, int]) -> None:
    """A parent without a row is more often a slip than a founder."""
    unknown = [(n, p) for n, row in rows for p in (row.dam, row.sire) if p and p not in lines]
    if unknown:
        told = ", ".join(f"{p} in line {n}" for n, p in unknown[:5])
        more = f" and {len(unknown) - 5} more" if len(unknown) > 5 else ""
        raise BadInput(f"{file}: parents without a row of their own: {told}{more}; add their rows")
