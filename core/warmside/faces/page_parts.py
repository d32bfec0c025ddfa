"""The parts of an answer as what a page is filled with: paragraphs, tables, drawings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby, pairwise

from reportlab.graphics.shapes import Drawing
from reportlab.platypus import Flowable, Paragraph, Spacer
from reportlab.platypus import Table as Grid

from warmside.core.answers.parts import (
    Answer,
    Chart,
    Fact,
    Kind,
    Part,
    Table,
    Timeline,
    Tone,
    Words,
)
from warmside.faces import page_styles as styles
from warmside.faces.cells import cell_text, said_bases, table_bases
from warmside.faces.look import Look
from warmside.faces.page_fonts import Type, width
from warmside.faces.page_styles import paragraph
from warmside.faces.page_tables import ROOM, page_table
from warmside.faces.shapes import drawing_of

_ROWS_A_DRAWING = 16
_HIGHEST = 660.0
_MOST_TITLE = 180.0


def page_story(answer: Answer, look: Look, kind: Type, date_line: str) -> list[Flowable]:
    """Title, date line, parts and sections, top to bottom."""
    story: list[Flowable] = []
    if answer.title:
        story.append(paragraph(answer.title, styles.TITLE, kind))
    if date_line:
        story.append(paragraph(date_line, styles.DATE_LINE, kind))
    story += _parts(answer.parts, look, kind)
    for section in answer.sections:
        story.append(paragraph(section.title, styles.SECTION, kind))
        story += _parts(section.parts, look, kind)
    return story or [Spacer(1, 1)]


def _parts(parts: Iterable[Part], look: Look, kind: Type) -> Iterator[Flowable]:
    for together, group in groupby(parts, type):
        if together is Fact:
            yield _facts([part for part in group if isinstance(part, Fact)], look, kind)
        else:
            for part in group:
                yield from _part(part, look, kind)


def _unbroken(table: Table) -> Iterator[Table | Words]:
    """The table cut where something is said between its rows; nothing for a silent empty one."""
    if not table.rows and not table.empty:
        return
    cuts = [0, *sorted(row for row, _ in table.breaks if row), len(table.rows)]
    said = dict(table.breaks)
    for start, end in pairwise(cuts):
        if start in said:
            yield Words(said[start])
        rows = table.rows[start:end]
        yield replace(table, rows=rows, breaks=(), title="" if start else table.title)


def _part(part: Part, look: Look, kind: Type) -> Iterator[Flowable]:
    if isinstance(part, Words):
        yield _words(part, kind)
    elif isinstance(part, Table):
        for run in _unbroken(part):
            if isinstance(run, Words):
                yield _words(run, kind)
            else:
                yield from _table(run, look, kind)
    elif isinstance(part, Chart | Timeline):
        for piece in _pieces(part):
            yield _fitting(drawing_of(piece, look.display, kind))
            yield Spacer(1, 8)


def _words(words: Words, kind: Type) -> Paragraph:
    if words.tone is Tone.CAUTION:
        return paragraph(words.text, styles.CAUTION, kind, before="caution:")
    before = "next:" if words.tone is Tone.HINT else ""
    return paragraph(words.text, styles.PLAIN, kind, before=before)


def _table(table: Table, look: Look, kind: Type) -> Iterator[Flowable]:
    if table.title:
        yield paragraph(table.title, styles.CAPTION, kind)
    yield from page_table(table, look, kind)
    shown = (index for index, column in enumerate(table.columns) if column.text)
    for basis in table_bases(table, shown):
        yield paragraph(basis, styles.BASIS, kind)


def _facts(facts: list[Fact], look: Look, kind: Type) -> Grid:
    """Titles to the left, values to the right with their basis below."""
    size = styles.FIELD.fontSize
    widest = max(width(kind.set(fact.title), size) for fact in facts) + 16
    left = min(widest, _MOST_TITLE)
    rows = [
        [paragraph(fact.title, styles.FIELD, kind), _value(fact, basis, look, kind)]
        for fact, basis in zip(facts, said_bases(facts), strict=True)
    ]
    return Grid(
        rows,
        colWidths=[left, ROOM - left],
        splitInRow=1,
        hAlign="LEFT",
        spaceBefore=2,
        spaceAfter=6,
        style=[
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("TOPPADDING", (0, 0), (-1, -1), 0.5),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
        ],
    )


def _value(fact: Fact, basis: str, look: Look, kind: Type) -> list[Paragraph]:
    style = styles.LATIN if fact.kind is Kind.LATIN else styles.FIELD
    value = [paragraph(cell_text(fact.value, fact.kind, look), style, kind)]
    return [*value, paragraph(basis, styles.BASIS, kind)] if basis else value


def _pieces(part: Chart | Timeline) -> Iterator[Chart | Timeline]:
    """A timeline of many rows becomes several, each with its calendar."""
    if isinstance(part, Chart) or len(part.rows) <= _ROWS_A_DRAWING:
        yield part
        return
    for first in range(0, len(part.rows), _ROWS_A_DRAWING):
        yield replace(part, rows=part.rows[first : first + _ROWS_A_DRAWING])


def _fitting(drawing: Drawing) -> Drawing:
    """The drawing, made smaller where it is higher than a page."""
    if drawing.height > _HIGHEST:
        share = _HIGHEST / drawing.height
        drawing.scale(share, share)
        drawing.width, drawing.height = drawing.width * share, _HIGHEST
    return drawing
