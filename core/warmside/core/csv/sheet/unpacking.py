"""Run as a process: a spreadsheet on standard input, its first sheet as JSON on standard output."""

from __future__ import annotations

import io
import sys
from contextlib import suppress
from datetime import date, datetime, time
from typing import Any

import msgspec

MOST_MEMORY = 1 << 30  # bytes
MOST_SECONDS = 300  # of the processor
"""Common practice, no source."""

Rows = list[tuple[int, tuple[str, ...]]]


def main() -> None:
    """Read the spreadsheet, or say what is wrong with it."""
    _bound()
    name, rows, problem = read(sys.stdin.buffer.read())
    sys.stdout.buffer.write(msgspec.json.encode((name, rows, problem)))


def read(raw: bytes) -> tuple[str, Rows, str]:
    """The name of the first sheet that is not blank, its rows, and what is wrong with the file."""
    from python_calamine import CalamineError, load_workbook

    try:
        book = load_workbook(io.BytesIO(raw))
        for name in book.sheet_names:
            cells = book.get_sheet_by_name(name).to_python(skip_empty_area=False)
            texts = (tuple(cell_text(c) for c in row) for row in cells)
            rows = [(n, row) for n, row in enumerate(texts, 1) if any(row)]
            if rows:
                return name, rows, ""
    except (CalamineError, OSError, ValueError) as error:
        return "", [], str(error)
    return "", [], ""


def _bound() -> None:
    """Take no more memory and time than the largest sheet needs, where the system can see to it."""
    try:
        import resource
    except ImportError:  # Windows
        return
    for kind, most in ((resource.RLIMIT_CPU, MOST_SECONDS), (resource.RLIMIT_AS, MOST_MEMORY)):
        with suppress(ValueError):  # there is a lower one already
            resource.setrlimit(kind, (most, most))


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


if __name__ == "__main__":
    main()
