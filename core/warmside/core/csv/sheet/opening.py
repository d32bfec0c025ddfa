"""Reading a sheet's file as a grid: text in any usual encoding, or a spreadsheet itself."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from warmside.core.csv.rows import LARGEST_CELL, SEPARATORS, bytes_of, decoded
from warmside.core.csv.sheet.grid import Grid, Row
from warmside.core.csv.sheet.spreadsheet import spreadsheet
from warmside.core.values.errors import BadInput

SPREADSHEETS = (".xlsx", ".xlsm", ".xls", ".xlsb", ".ods")
BEGINNINGS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
"""Of a ZIP file and of a compound file, as spreadsheets are; no text begins so."""


def open_grid(path: Path, encoding: str | None) -> Grid:
    """The file as a grid; raises BadInput where it cannot be read or is empty."""
    grid = spreadsheet(path) if is_spreadsheet(path) else _text(path, encoding)
    if not grid.rows:
        raise BadInput(f"{path} is empty")
    return grid


def is_spreadsheet(path: Path) -> bool:
    """Whether it is no text but a spreadsheet, by its name or, out of a pipe, by its beginning."""
    named = path.suffix.lower() in SPREADSHEETS
    return named or bytes_of(path).startswith(BEGINNINGS)


def guessed_encoding(raw: bytes) -> str:
    """UTF-8 or UTF-16 where the bytes can be that, else that of older Western spreadsheets."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    if raw[1:200:2].count(0) > len(raw[1:200:2]) // 2:
        return "utf-16-le"
    if raw[0:200:2].count(0) > len(raw[0:200:2]) // 2:
        return "utf-16-be"
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def separator_of(text: str) -> str:
    """The separator that splits most lines, and into the most cells that are equally many."""
    lines = [line for line in text.splitlines()[:60] if line.strip()]

    def fit(mark: str) -> tuple[int, int]:
        counts = [line.count(mark) for line in lines]
        usual = max(set(counts), key=lambda n: (counts.count(n) if n else 0, n))
        return (counts.count(usual) * bool(usual), usual)

    marks: tuple[str, ...] = (*SEPARATORS, "|")
    return max(marks, key=fit)


def _text(path: Path, encoding: str | None) -> Grid:
    raw = bytes_of(path)
    used = encoding or guessed_encoding(raw)
    text = decoded(raw, used, path)
    if not text.strip():
        return Grid(())
    mark = separator_of(text)
    csv.field_size_limit(LARGEST_CELL)
    lines = io.StringIO("".join(_ditto_kept(text, mark)), newline="")
    reader = csv.reader(lines, delimiter=mark)
    said = f"cells are separated by {_MARKS[mark]}; the text is {used.upper()}"
    try:
        return Grid(tuple(_rows(reader)), said=(said,))
    except csv.Error as error:
        raise BadInput(f"{path}, line {reader.line_num}: broken: {error}") from None


def _ditto_kept(text: str, mark: str) -> Iterator[str]:
    """The lines, a lone quotation mark as a whole cell (ditto, typed by hand) made a ditto sign.

    Else it would open a quoted cell and swallow the lines below.
    """
    lone = re.compile(rf'(?<![^{re.escape(mark)}])"(?=[{re.escape(mark)}\r\n]|$)')
    for line in text.splitlines(keepends=True):
        yield lone.sub("〃", line) if line.count('"') % 2 else line


_MARKS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright strokes"}


def _rows(reader: Any) -> Iterator[Row]:
    line = 1
    for cells in reader:
        tidy = tuple(" ".join(c.split()) for c in cells)
        if any(tidy):
            yield Row(line, tidy)
        line = reader.line_num + 1
