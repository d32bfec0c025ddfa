"""Reading a sheet's file as a grid: text in any usual encoding, or a spreadsheet itself."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from warmside.core.csv.rows import LARGEST_CELL, SEPARATORS, bytes_of, decoded
from warmside.core.csv.sheet.grid import Grid, Row
from warmside.core.values.errors import BadInput

SPREADSHEETS = (".xlsx", ".xlsm", ".xls", ".xlsb", ".ods")


def open_grid(path: Path, encoding: str | None) -> Grid:
    """The file as a grid; raises BadInput where it cannot be read or is empty."""
    grid = _spreadsheet(path) if path.suffix.lower() in SPREADSHEETS else _text(path, encoding)
    if not grid.rows:
        raise BadInput(f"{path} is empty")
    return grid


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


def _spreadsheet(path: Path) -> Grid:
    """The first sheet that is not blank; the library is imported here, for it is seldom needed."""
    from python_calamine import CalamineError, load_workbook

    try:
        book = load_workbook(path)
        for name in book.sheet_names:
            cells = book.get_sheet_by_name(name).to_python(skip_empty_area=False)
            texts = (tuple(cell_text(c) for c in row) for row in cells)
            rows = tuple(Row(n, row) for n, row in enumerate(texts, 1) if any(row))
            if rows:
                return Grid(rows, exact=True, said=(f"the sheet {name!r} is read",))
    except (CalamineError, OSError, ValueError) as error:
        raise BadInput(f"cannot read {path} as a spreadsheet: {error}") from None
    return Grid(())


def cell_text(value: Any) -> str:
    """A spreadsheet's cell as text: days as ISO dates, whole numbers without decimals."""
    if isinstance(value, datetime):
        midnight = value.time() == time()
        return value.date().isoformat() if midnight else value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.isoformat("minutes")
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return str(int(value)) if value == int(value) else repr(round(value, 9))
    return " ".join(str(value).split())
