"""The parts of an answer as what a page is filled with: paragraphs, tables, drawings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Any, assert_never

from msgspec.structs import replace
from reportlab.platypus import Flowable, Paragraph, Spacer
from reportlab.platypus import Table as Grid

from warmside.core.answers.parts import (
    Answer,
    Chart,
    Drawing,
    Fact,
    Kind,
    Part,
    Section,
    Strip,
    Table,
    Timeline,
    Tone,
    Words,
)
from warmside.faces.cells import fact_text, said_bases, table_bases
from warmside.faces.drawn.shapes import sketch_of
from warmside.faces.look import Look
from warmside.faces.paper import page_styles as styles
from warmside.faces.paper.page_fonts import Type, width
from warmside.faces.paper.page_strip import page_strip
from warmside.faces.paper.page_styles import paragraph, preformatted
from warmside.faces.paper.page_tables import ROOM, page_table
from warmside.faces.paper.sketch_pdf import page_drawing

_ROWS_A_DRAWING = 16
_MOST_TITLE, _BESIDE = 180.0, 90.0

Piece = Sequence[Part]
"""Parts that are set together: neighbouring facts, or one part of another kind."""


def page_story(answer: Answer, look: Look, kind: Type, date_line: str) -> list[Flowable]:
    """Title, date line, parts and sections, top to bottom."""
    story = page_head(answer, kind, date_line)
    for piece in pieces(answer.parts):
        story += set_piece(piece, look, kind)
    for section in answer.sections:
        story.append(section_title(section, kind))
        for piece in pieces(section.parts):
            story += set_piece(piece, look, kind)
    return story or [Spacer(1, 1)]


def page_head(answer: Answer, kind: Type, date_line: str) -> list[Flowable]:
    """The title and below it the date line."""
    head = [(answer.title, styles.TITLE), (date_line, styles.DATE_LINE)]
    return [paragraph(text, style, kind) for text, style in head if text]


def section_title(section: Section, kind: Type) -> Paragraph:
    """What stands over a section."""
    return paragraph(section.title, styles.SECTION, kind)


def beside_titles(sections: Sequence[Section], kind: Type) -> Grid:
    """Sections of words alone: the titles in bold to the left, the words beside them."""
    rows = [[paragraph(s.title, styles.BESIDE, kind), _beside(s.parts, kind)] for s in sections]
    return _two_columns(rows, _BESIDE)


def _beside(parts: Iterable[Part], kind: Type) -> list[Paragraph]:
    words = [part for part in parts if isinstance(part, Words)]
    return [paragraph(w.text, styles.FIELD, kind, before=_SAID[w.tone]) for w in words]


def pieces(parts: Iterable[Part]) -> Iterator[Piece]:
    """The parts as they are set, in their order."""
    for together, group in groupby(parts, type):
        if together is Fact:
            yield list(group)
        else:
            yield from ([part] for part in group)


def set_piece(piece: Piece, look: Look, kind: Type) -> list[Flowable]:
    """What a page is filled with for a piece."""
    facts = [part for part in piece if isinstance(part, Fact)]
    return [_facts(facts, look, kind)] if facts else list(_part(piece[0], look, kind))


def _part(part: Part, look: Look, kind: Type) -> Iterator[Flowable]:
    match part:
        case Words():
            yield from _words(part, kind)
        case Fact():
            yield _facts([part], look, kind)
        case Table():
            yield from _whole_table(part, look, kind)
        case Chart() | Timeline() | Drawing():
            for piece in _sheets(part):
                yield page_drawing(sketch_of(piece, look, kind), *look.sheet)
                yield Spacer(1, 8)
        case Strip():
            yield from page_strip(part, look, kind)
        case _:
            assert_never(part)


_SAID = {Tone.PLAIN: "", Tone.CAUTION: "caution:", Tone.HINT: "next:"}


def _words(words: Words, kind: Type) -> Iterator[Flowable]:
    style = styles.CAUTION if words.tone is Tone.CAUTION else styles.PLAIN
    before = _SAID[words.tone]
    if not words.pre:
        yield paragraph(words.text, style, kind, before=before)
        return
    if before:
        yield paragraph("", styles.PLAIN, kind, before=before)
    yield preformatted(words.text, kind, ROOM)


def _whole_table(table: Table, look: Look, kind: Type) -> Iterator[Flowable]:
    """Its title, its rows, and what they rest on; nothing for a silent empty one."""
    shown = [index for index, column in enumerate(table.columns) if column.text]
    if not (table.rows and shown) and not table.empty:
        return
    if table.title:
        yield paragraph(table.title, styles.CAPTION, kind)
    yield from page_table(table, look, kind)
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
    return _two_columns(rows, left)


def _two_columns(rows: list[list[Any]], left: float) -> Grid:
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
    value = [paragraph(fact_text(fact, look), style, kind)]
    return [*value, paragraph(basis, styles.BASIS, kind)] if basis else value


def _sheets(part: Chart | Timeline | Drawing) -> Iterator[Chart | Timeline | Drawing]:
    """A timeline of many rows becomes several, each with its calendar."""
    if not isinstance(part, Timeline) or len(part.rows) <= _ROWS_A_DRAWING:
        yield part
        return
    for first in range(0, len(part.rows), _ROWS_A_DRAWING):
        yield replace(part, rows=part.rows[first : first + _ROWS_A_DRAWING])
