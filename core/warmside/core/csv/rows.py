"""Reading a keeper's CSV file: its encoding, its separator, its rows with their line numbers."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from warmside.core.csv.pipes import Told, is_pipe, out_of
from warmside.core.values.errors import BadInput

__all__ = ("CsvFile", "CsvRow", "decoded", "read_csv", "rows", "rows_with")
SEPARATORS = ",;\t"
LARGEST_CELL = 100_000
LARGEST_FILE = 64 << 20  # bytes, a million rows; common practice, no source


class CsvRow(Struct, frozen=True):
    """A row: the line it begins on, and its cells by column."""

    line: int
    cells: dict[str, str]
    problem: str = ""


class CsvFile(Struct, frozen=True):
    """A file that was read: the names of its columns, and its text below the header."""

    columns: tuple[str, ...]
    text: str
    separator: str


def read_csv(path: Path, encoding: str) -> CsvFile:
    """The file as text; raises BadInput where it cannot be read, decoded or has no header."""
    text = decoded(bytes_of(path), encoding, path)
    if not text.strip():
        raise BadInput(f"{path} is empty")
    first = text.splitlines()[0]
    separator = max(SEPARATORS, key=first.count)
    header = next(csv.reader([first], delimiter=separator))
    columns = tuple(c.strip() for c in header)
    doubled = {c for c in columns if columns.count(c) > 1 and c}
    if doubled:
        raise BadInput(f"{path} has two columns called {sorted(doubled)[0]!r}; rename one")
    return CsvFile(columns, text, separator)


def bytes_of(path: Path, told: Told = lambda so_far: None) -> bytes:
    """All of a file or a pipe; BadInput where it cannot be read or is larger than a sheet is.

    `told` hears how much has come out of a pipe.
    """
    try:
        raw = out_of(path, LARGEST_FILE + 1, told) if is_pipe(path) else _read(path)
    except OSError as error:
        raise BadInput(f"cannot read {path}: {error.strerror}") from error
    if len(raw) > LARGEST_FILE:
        raise BadInput(f"{path} is larger than {LARGEST_FILE >> 20} MB; import it in parts")
    return raw


def _read(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(LARGEST_FILE + 1)


def decoded(raw: bytes, encoding: str, path: Path) -> str:
    """The bytes of a file as text, with or without a byte order mark; else BadInput."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        encoding = "utf-16"
    elif encoding.lower().replace("-", "").replace("_", "") == "utf8":
        encoding = "utf-8-sig"
    try:
        return raw.decode(encoding)
    except LookupError:
        raise BadInput(f"there is no encoding {encoding!r}; try utf-8, cp1252 or utf-16") from None
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise BadInput(
            f"{path}, line {line}: this is not {encoding.removesuffix('-sig')}; "
            "name the file's encoding, such as --encoding cp1252"
        ) from None


def rows_with(path: Path, columns: Sequence[str]) -> list[CsvRow]:
    """The rows of a UTF-8 file that has these columns, their cells without blanks around.

    Raises BadInput, naming the line, for a missing column and for a broken row.
    """
    file = read_csv(path, "utf-8")
    missing = [c for c in columns if c not in file.columns]
    if missing:
        raise BadInput(f"{path} needs the columns {', '.join(columns)}; {missing[0]} is missing")
    found = []
    for row in rows(file):
        if row.problem:
            raise BadInput(f"{path}, line {row.line}: {row.problem}")
        found.append(CsvRow(row.line, {name: row.cells[name].strip() for name in columns}))
    return found


def rows(file: CsvFile) -> Iterator[CsvRow]:
    """The rows below the header; one with too few or too many cells carries its problem."""
    csv.field_size_limit(LARGEST_CELL)
    reader = csv.reader(io.StringIO(file.text, newline=""), delimiter=file.separator, strict=True)
    next(reader)
    width = len(file.columns)
    line = reader.line_num + 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            yield CsvRow(line, {}, f"broken: {error}")
            return
        if any(c.strip() for c in cells):
            problem = "" if len(cells) == width else f"has {len(cells)} cells, not {width}"
            by_name = dict(zip(file.columns, cells, strict=False))
            yield CsvRow(line, by_name, problem)
        line = reader.line_num + 1
