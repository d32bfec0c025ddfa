"""Tables of a page: columns that fit the paper, headers repeated on every page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace
from reportlab.lib.colors import Color, black
from reportlab.platypus import Flowable, LongTable, Paragraph

from warmside.core.answers.parts import Kind, Table
from warmside.faces.cells import cell_text, is_numeric, is_unbroken
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import BOLD, OBLIQUE, REGULAR, Type, width
from warmside.faces.paper.page_styles import BREAK, CAPTION, PLAIN, cell_style, paragraph
from warmside.faces.row_words import row_words
from warmside.faces.terminal.fitting import fitted

ROOM = 480.0
_SIZES = (8.0, 7.0, 6.0)
_PAD = 4.0
_TEXT_FLOOR = 12  # letters of an average word
_TALL = 1500  # letters of a cell that may be taller than a page: its row alone is broken
_RULE = Color(0.8, 0.8, 0.8)
_TO_WRITE, _WRITING = "noted", 80.0


class _Shown(Struct, frozen=True):
    """A column made ready, its texts set."""

    title: str
    cells: tuple[str, ...]
    right: bool
    unbroken: bool
    font: str
    least: float = 0.0  # points

    def cut(self, start: int, end: int) -> _Shown:
        """The same column of some of the rows."""
        return replace(self, cells=self.cells[start:end])

    def natural(self, size: float) -> float:
        """The breadth at which nothing breaks."""
        cells = max(self._breadth(cell, size) for cell in self.cells)
        return max(width(self.title, size, BOLD), cells, self.least) + 2 * _PAD + 0.5

    def floor(self, size: float) -> float:
        """The least breadth: numbers are never broken, ranges between words only."""
        cells = max(self._breadth(cell, size) for cell in self.cells)
        if self.right and not self.unbroken:
            cells = max(width(w, size, self.font) for cell in self.cells for w in cell.split())
        cells = cells if self.right else min(cells, size * 0.6 * _TEXT_FLOOR)
        words = max((width(word, size, BOLD) for word in self.title.split()), default=0.0)
        return max(cells, min(words, size * 14), self.least) + 2 * _PAD + 0.5

    def _breadth(self, text: str, size: float) -> float:
        return max(width(line, size, self.font) for line in text.split("\n"))


def page_table(table: Table, look: Look, kind: Type) -> Iterator[Flowable]:
    """The table without its title, cut where something is said between its rows.

    As `title: value` lines where no size makes it fit.
    """
    shown = [index for index, column in enumerate(table.columns) if column.text]
    if not table.rows or not shown:
        yield paragraph(table.empty, PLAIN, kind)
        return
    if said := row_words(table, look):
        yield paragraph(said, PLAIN, kind)
        return
    columns = [_shown(table, index, look, kind) for index in shown]
    if table.ticks:
        columns = [_boxes(table), *columns, _to_write(table)]
    fit = _fit(columns, ticks=table.ticks)
    breaks, heads = dict(table.breaks), dict(table.heads)
    for start, end in pairwise([0, *sorted({*breaks, *heads} - {0}), len(table.rows)]):
        if start in breaks:
            yield paragraph(breaks[start], BREAK, kind)
        if start in heads:
            yield paragraph(heads[start], CAPTION, kind)
        run = [column.cut(start, end) for column in columns]
        if fit is None:
            yield from _stacked(run, kind)
        else:
            yield _grid(run, *fit, headed=not start, tall=table.ticks)


def _fit(columns: Sequence[_Shown], *, ticks: bool) -> tuple[list[float], float] | None:
    """The breadths of the columns and the size of the letters; None where no size makes it fit.

    Where one writes into it, the last column takes the room that is left.
    """
    for size in _SIZES:
        natural = [column.natural(size) for column in columns]
        widths = fitted(natural, [column.floor(size) for column in columns], ROOM)
        if widths is not None:
            spare = ROOM - sum(widths) if ticks else 0.0
            return [*widths[:-1], widths[-1] + spare], size
    return None


def _boxes(table: Table) -> _Shown:
    """A box to tick before each row."""
    return _Shown("", ("☐",) * len(table.rows), False, True, REGULAR)


def _to_write(table: Table) -> _Shown:
    """A column to write in what was done."""
    return _Shown(_TO_WRITE, ("",) * len(table.rows), False, True, REGULAR, _WRITING)


def _shown(table: Table, index: int, look: Look, kind: Type) -> _Shown:
    column = table.columns[index]
    values = [row[index] for row in table.rows]
    font = OBLIQUE if column.kind is Kind.LATIN else REGULAR
    cells = tuple(kind.set(cell_text(value, column.kind, look), font) for value in values)
    title = kind.set(column.title, BOLD)
    return _Shown(title, cells, is_numeric(column, values), is_unbroken(values), font)


def _grid(
    columns: Sequence[_Shown], widths: Sequence[float], size: float, *, headed: bool, tall: bool
) -> LongTable:
    titles = zip(columns, widths, strict=True)
    header = [[_cell(c.title, BOLD, c.right, w, size) for c, w in titles]] if headed else []
    rows = [
        [
            _cell(text, column.font, column.right, wide, size)
            for text, column, wide in zip(row, columns, widths, strict=True)
        ]
        for row in zip(*(column.cells for column in columns), strict=True)
    ]
    grid = LongTable(
        [*header, *rows],
        colWidths=list(widths),
        repeatRows=len(header),
        splitInRow=int(any(len(text) > _TALL for column in columns for text in column.cells)),
        hAlign="LEFT",
        spaceBefore=2,
        spaceAfter=6,
    )
    grid.setStyle(_style(columns, size, len(header), 4.5 if tall else 1.5))
    return grid


def _cell(text: str, font: str, right: bool, room: float, size: float) -> str | Paragraph:
    """A plain string where it fits on one line, which is much faster than a paragraph."""
    if "\n" not in text and width(text, size, font) <= room - 2 * _PAD:
        return text
    return paragraph(text, cell_style(size, font, right), Type())


def _style(
    columns: Sequence[_Shown], size: float, first: int, pad: float
) -> list[tuple[object, ...]]:
    """The look of a grid whose rows begin at `first`, below its header if it has one."""
    header: list[tuple[object, ...]] = [
        ("FONT", (0, 0), (-1, 0), BOLD, size, size * 1.25),
        ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.8, black),
    ]
    style: list[tuple[object, ...]] = [
        *(header if first else ()),
        ("VALIGN", (0, first), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), _PAD),
        ("RIGHTPADDING", (0, 0), (-1, -1), _PAD),
        ("TOPPADDING", (0, 0), (-1, -1), pad),
        ("BOTTOMPADDING", (0, 0), (-1, -1), pad + 1),
        ("LINEBELOW", (0, first), (-1, -1), 0.3, _RULE),
    ]
    for number, column in enumerate(columns):
        style.append(("FONT", (number, first), (number, -1), column.font, size, size * 1.25))
        style.append(("ALIGN", (number, 0), (number, -1), "RIGHT" if column.right else "LEFT"))
    return style


def _stacked(columns: Sequence[_Shown], kind: Type) -> Iterator[Flowable]:
    for row in zip(*(column.cells for column in columns), strict=True):
        fields = (f"{c.title}: {cell}" for c, cell in zip(columns, row, strict=True))
        yield paragraph("\n".join(fields), PLAIN, kind)
