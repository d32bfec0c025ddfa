"""A spreadsheet itself as a grid; what reads it runs apart, so that no file can take us along."""

from __future__ import annotations

import sys
from pathlib import Path

import msgspec

from warmside.core.csv.rows import bytes_of
from warmside.core.csv.sheet.grid import Grid, Row
from warmside.core.values.errors import BadInput

READER = "warmside.core.csv.sheet.unpacking"


def spreadsheet(path: Path) -> Grid:
    """The first sheet that is not blank; BadInput where there is none that can be read.

    A file may unpack to any size, and one cell in the last row makes a sheet of 17 thousand
    million: the reader has bounds of its own, and where it ends, it alone ends.
    """
    import subprocess

    raw = bytes_of(path)
    done = subprocess.run(
        [sys.executable, "-m", READER], input=raw, capture_output=True, check=False
    )
    try:
        name, rows, problem = msgspec.json.decode(done.stdout, type=_Read)
    except msgspec.DecodeError:
        raise BadInput(
            f"cannot read {path} as a spreadsheet: it is broken, too large, or has a cell far "
            "below or beside the others; save its sheet as CSV and import that"
        ) from None
    if problem:
        raise BadInput(f"cannot read {path} as a spreadsheet: {problem}")
    said = (f"the sheet {name!r} is read",) if rows else ()
    return Grid(tuple(Row(n, tuple(row)) for n, row in rows), exact=True, said=said)


_Read = tuple[str, list[tuple[int, list[str]]], str]
"""The sheet's name, its rows that are not blank with their numbers, and what went wrong."""
