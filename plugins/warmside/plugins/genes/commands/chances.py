"""`warmside genes chances`: one recessive trait in a pedigree file, without a collection."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Column, Table, Tone, Unit, csv_files, paragraphs
from warmside.plugins.genes.inheritance.clash import clash
from warmside.plugins.genes.inheritance.copies import copies
from warmside.plugins.genes.inheritance.one_recessive import (
    TRAIT,
    PedigreeRow,
    check_frequency,
    family_of,
)
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.telling.wording import MENDEL

NAMES = ("id", "dam", "sire", "looks")
COLUMNS = (
    Column("id", "id"),
    Column("normal", "no copy", Unit.PROBABILITY),
    Column("het", "het", Unit.PROBABILITY),
    Column("visual", "visual", Unit.PROBABILITY),
)


def chances(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="CSV with the columns id, dam, sire, looks.")],
    frequency: Annotated[
        float, typer.Option(help="Share of the allele among founders: 0.1 (Hardy-Weinberg).")
    ],
) -> Answer:
    """The chances of no copy, het and visual for one autosomal recessive, for each animal."""
    check_frequency(frequency)
    family = family_of(read_rows(file), frequency)
    found = settled(family)
    if found.model is None:
        facts = "; ".join(f"{f.animal} {f.words}" for f in clash(family))
        raise BadInput(f"{file}: these cannot all be true: {facts}; check looks and parents")
    known = {m.id: copies(found.model.genotypes(m.id, TRAIT), TRAIT) for m in family.members}
    rows = tuple((str(id), *chance) for id, chance in known.items())
    by_id = {
        str(id): dict(zip(("normal", "het", "visual"), c, strict=True)) for id, c in known.items()
    }
    words = f"{MENDEL.rule}; founders by Hardy-Weinberg with a share of {frequency:g}"
    return Answer(
        f"Chances in {file.name}",
        (Table("animals", COLUMNS, rows), *paragraphs(words, tone=Tone.HINT)),
        extra={"animals": by_id},
    )


def read_rows(file: Path) -> list[PedigreeRow]:
    """The rows of the file; BadInput names the line that is wrong."""
    found = [PedigreeRow(row.line, *row.cells.values()) for row in csv_files.rows_with(file, NAMES)]
    for row in found:
        if not row.id:
            raise BadInput(f"{file}, line {row.line}: the id is missing")
    return found
