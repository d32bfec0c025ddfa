"""A table as aligned terminal lines that always fit the width, or as stacked rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from warmside.core.answers.parts import Kind, Table
from warmside.faces.cells import NOTHING, cell_text, is_numeric, is_unbroken, table_bases
from warmside.faces.look import Look
from warmside.faces.row_words import row_words
from warmside.faces.terminal.fitting import fitted
from warmside.faces.terminal.ink import Ink, field_lines, paint
from warmside.faces.terminal.visible import visible
from warmside.faces.terminal.widths import hanging, text_width, wrap

_GAP = 2
_STACK_BELOW = 50
_TEXT_FLOOR = 10
_WORD_FLOOR = 14
_INDENT = 6


class _Shown(Struct, frozen=True):
    """A column made ready: its cells as text, and how far it can give way."""

    title: str
    cells: tuple[str, ...]
    right: bool
    unbroken: bool
    below: bool
    ink: Ink

    @property
    def natural(self) -> int:
        return max(map(_breadth, (self.title, *self.cells)))

    @property
    def floor(self) -> int:
        """The least width: numbers are never broken, ranges between words only."""
        title = min(_WORD_FLOOR, max(map(text_width, self.title.split() or [""])))
        cells = max(map(_breadth, self.cells))
        if self.right and not self.unbroken:
            cells = max(text_width(word) for cell in self.cells for word in cell.split())
        return max(title, cells if self.right else min(cells, _TEXT_FLOOR), 2)


def render_table(table: Table, look: Look) -> list[str]:
    """Title, header, rows and the bases of the estimates, each line within `look.width`."""
    shown = [index for index, column in enumerate(table.columns) if column.text]
    if not (table.rows and shown) and not table.empty:
        return []
    lines = [paint(t, Ink.BOLD, look.colour) for t in _wrapped_title(table, look.width)]
    if not table.rows or not shown:
        return lines + wrap(visible(table.empty), look.width)
    if said := row_words(table, look):
        return [*lines, *wrap(visible(said), look.width), *_bases(table, shown, look)]
    columns = [_shown(table, index, look) for index in shown]
    beside, under = _placed(columns, look.width)
    widths = _fit(beside, look.width)
    breaks = _said_before(table, look)
    if widths is None:
        lines += _stacked(columns, breaks, look)
    else:
        lines += [] if table.dense else _headings(beside, widths, look)
        lines += _aligned(beside, under, widths, breaks, look)
    return lines + _bases(table, shown, look)


def _bases(table: Table, shown: Sequence[int], look: Look) -> list[str]:
    said = [line for b in table_bases(table, shown) for line in hanging(b, look.width)]
    return [paint(line, Ink.DIM, look.colour) for line in said]


def _placed(columns: Sequence[_Shown], width: int) -> tuple[list[_Shown], list[_Shown]]:
    """The columns that stand beside each other, and those that go under their row."""
    room = width - _GAP * (len(columns) - 1)
    if sum(column.natural for column in columns) <= room:
        return list(columns), []
    return [c for c in columns if not c.below], [c for c in columns if c.below]


def _under(under: Sequence[_Shown], number: int, look: Look) -> list[str]:
    """The cells that stand under a row, each after its title."""
    lines = []
    for column in under:
        if column.cells[number] not in ("", NOTHING):
            said = hanging(f"{column.title}: {column.cells[number]}", look.width - _INDENT)
            lines += [" " * _INDENT + paint(line, Ink.DIM, look.colour) for line in said]
    return lines


def _break(words: str, look: Look) -> list[str]:
    """What is said between two rows, marked so that it does not read as a row."""
    return ["", *(paint(t, Ink.BOLD, look.colour) for t in hanging(f"* {words}", look.width)), ""]


def _said_before(table: Table, look: Look) -> dict[int, list[str]]:
    """The lines before each row: its break, and its head; blank lines only where there is room."""
    breaks, heads = dict(table.breaks), dict(table.heads)
    found = {}
    for row in {*breaks, *heads}:
        lines = _break(breaks[row], look) if row in breaks else []
        lines = [line for line in lines if line] if table.dense else lines
        head = hanging(heads[row], look.width) if row in heads else []
        found[row] = [*lines, *(paint(t, Ink.BOLD, look.colour) for t in head)]
    return found


def _wrapped_title(table: Table, width: int) -> list[str]:
    return wrap(visible(table.title), width) if table.title else []


def _shown(table: Table, index: int, look: Look) -> _Shown:
    column = table.columns[index]
    values = [row[index] for row in table.rows]
    return _Shown(
        visible(column.title),
        tuple(cell_text(value, column.kind, look) for value in values),
        is_numeric(column, values),
        is_unbroken(values),
        column.below,
        Ink.ITALIC if column.kind is Kind.LATIN else Ink.NONE,
    )


def _breadth(text: str) -> int:
    return max(map(text_width, text.split("\n")))


def _fit(columns: Sequence[_Shown], width: int) -> list[int] | None:
    """Widths that fit; None where stacked rows read better."""
    room = width - _GAP * (len(columns) - 1)
    natural = [column.natural for column in columns]
    if width < _STACK_BELOW and sum(natural) > room:
        return None
    widths = fitted(natural, [column.floor for column in columns], room)
    return [int(wide) for wide in widths] if widths else None


def _aligned(
    columns: Sequence[_Shown],
    under: Sequence[_Shown],
    widths: Sequence[int],
    breaks: Mapping[int, list[str]],
    look: Look,
) -> list[str]:
    lines: list[str] = []
    inks = [column.ink for column in columns]
    for number, row in enumerate(zip(*(column.cells for column in columns), strict=True)):
        lines += breaks.get(number, [])
        broken = [wrap(cell, width) for cell, width in zip(row, widths, strict=True)]
        lines += _row(broken, columns, widths, inks, look)
        lines += _under(under, number, look)
    return lines


def _headings(columns: Sequence[_Shown], widths: Sequence[int], look: Look) -> list[str]:
    """The titles of the columns over a rule."""
    header = [wrap(c.title, w) for c, w in zip(columns, widths, strict=True)]
    height = max(map(len, header))
    header = [[""] * (height - len(lines)) + lines for lines in header]
    lines = _row(header, columns, widths, [Ink.BOLD] * len(columns), look)
    return [*lines, (" " * _GAP).join("-" * width for width in widths)]


def _row(
    broken: Sequence[Sequence[str]],
    columns: Sequence[_Shown],
    widths: Sequence[int],
    inks: Sequence[Ink],
    look: Look,
) -> list[str]:
    """The terminal lines of one row, whose cells are already broken."""
    lines = []
    for number in range(max(map(len, broken))):
        pieces = []
        for cell, column, width, ink in zip(broken, columns, widths, inks, strict=True):
            text = cell[number] if number < len(cell) else ""
            blanks = " " * (width - text_width(text))
            text = paint(text, ink, look.colour)
            pieces.append(blanks + text if column.right else text + blanks)
        lines.append((" " * _GAP).join(pieces).rstrip(" "))
    return lines


def _stacked(columns: Sequence[_Shown], breaks: Mapping[int, list[str]], look: Look) -> list[str]:
    lines: list[str] = []
    for number in range(len(columns[0].cells)):
        lines += breaks.get(number, [])
        if number and number not in breaks:
            lines.append("")
        for column in columns:
            lines += field_lines(column.title, column.cells[number], column.ink, look)
    return lines
