"""The young of a clutch from a CSV file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from warmside.api import BadInput, Display, csv_files, entering
from warmside.plugins.lineage.hatching.typed import Young, checked_mass

COLUMNS = ("name", "code", "sex", "mass", "looks")


def read_file(path: Path, display: Display) -> Iterator[Young]:
    """A young a row; empty cells are what is not known. BadInput names the line."""
    for row in csv_files.rows_with(path, COLUMNS):
        cell = row.cells
        try:
            yield Young(
                checked_mass(cell["mass"], display) if cell["mass"] else None,
                entering.sex_of(cell["sex"]),
                cell["looks"],
                cell["name"],
                cell["code"].upper(),
            )
        except BadInput as error:
            raise BadInput(f"{path}, line {row.line}: {error}") from None
