"""Whether a face says all of an answer, in its order: what it leaves out fails the check.

What must stand there is worked out from the parts, not by a face; only how one cell reads is asked
of the module that all faces share and that has tests of its own.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from msgspec.structs import replace
from pypdf import PdfReader
from pypdfium2 import PdfDocument

from warmside.core.answers.drawings import Label
from warmside.core.answers.parts import (
    Answer,
    Chart,
    Drawing,
    Fact,
    Part,
    Shot,
    Strip,
    Table,
    Timeline,
    Words,
)
from warmside.core.values.basis import Estimate
from warmside.core.values.units import Unit
from warmside.faces.cells import NOTHING, basis_text, cell_text, fact_basis, fact_text, table_bases
from warmside.faces.data.json_values import plain_value
from warmside.faces.drawn.plot import ready_to_draw
from warmside.faces.look import Look
from warmside.faces.terminal.text import render_text
from warmside.faces.terminal.visible import visible

BROKEN = "\ufffe"  # what PDFium gives for a hyphen at the end of a line
WIDE = 4000  # columns at which no table breaks
_SURE = 12  # letters of a title that no drawing shortens


def squeezed(text: str) -> str:
    """Without blanks and line feeds, where each face has its own."""
    return "".join(text.split())


@dataclass
class Reader:
    """Reads a text once from top to bottom; `shown` is what the face makes of signs."""

    text: str
    shown: Callable[[str], str] = visible
    at: int = 0

    def next(self, words: str) -> None:
        """The words stand further down; reading goes on after them."""
        flat = squeezed(self.shown(words))
        found = self.text.find(flat, self.at)
        assert found >= 0, f"left out or out of order: {words!r}"
        self.at = found + len(flat)

    def somewhere(self, words: str) -> None:
        """The words stand anywhere further down."""
        flat = squeezed(self.shown(words))
        assert self.text.find(flat, self.at) >= 0, f"left out: {words!r}"


def check_words(reader: Reader, answer: Answer, look: Look, *, terminal: bool = False) -> None:
    """All words, values and titles of the answer, in order."""
    reader.next(answer.title)
    for part in answer.parts:
        _check_part(reader, part, look, terminal)
    for section in answer.sections:
        reader.next(section.title)
        for part in section.parts:
            _check_part(reader, part, look, terminal)


def _check_part(reader: Reader, part: Part, look: Look, terminal: bool) -> None:
    if isinstance(part, Words):
        reader.next(part.text)
    elif isinstance(part, Fact):
        reader.next(part.title)
        reader.next(fact_text(part, look))
        basis = fact_basis(part)
        if basis and reader.text.find("asabove", reader.at) < 0:
            reader.next(basis_text(basis))
    elif isinstance(part, Table):
        _check_table(reader, part, look, terminal)
    elif isinstance(part, Drawing):
        reader.next(part.title)
        labels = [shape.text for shape in part.shapes if isinstance(shape, Label)]
        for words in part.text if terminal else labels:
            reader.next(words)
    elif isinstance(part, Strip):
        reader.next(part.title)
        for shot in part.shots:
            _check_shot(reader, shot)
    else:
        reader.next(part.title)
        for words in _names(part, look):
            reader.somewhere(words[:_SURE])


def _check_table(reader: Reader, table: Table, look: Look, terminal: bool) -> None:
    shown = [index for index, column in enumerate(table.columns) if column.text]
    if table.rows or table.empty:
        reader.next(table.title)
    if not table.rows or not shown:
        reader.next(table.empty)
        return
    for index in () if table.dense and terminal else shown:
        said_of = [cell_text(row[index], table.columns[index].kind, look) for row in table.rows]
        if not table.columns[index].below or {*said_of} - {"", NOTHING}:
            reader.somewhere(table.columns[index].title)
    for basis in table_bases(table, shown):
        reader.somewhere(basis)
    last = sorted(shown, key=lambda index: table.columns[index].below)
    said = dict(table.breaks)
    for number, row in enumerate(table.rows):
        reader.next(said.get(number, ""))
        told = {i: cell_text(row[i], table.columns[i].kind, look) for i in shown}
        # a dash that would stand below its row may be left out
        some = [i for i in last if told[i] != NOTHING or not table.columns[i].below]
        cells, under = [told[i] for i in shown if i in some], [told[i] for i in some]
        start = reader.at
        try:
            for cell in cells:
                reader.next(cell)
        except AssertionError:
            reader.at = start
            for cell in under:
                reader.next(cell)


def _check_shot(reader: Reader, shot: Shot) -> None:
    """Its number, then its words in their order, wherever a face puts a link to it."""
    reader.next(shot.called)
    for words in shot.words:
        reader.next(words)


def _names(part: Chart | Timeline, look: Look) -> Iterator[str]:
    """What a chart's or a timeline's rows, curves and marks are called."""
    if isinstance(part, Chart):
        plot = ready_to_draw(part, look)
        if plot is not None:
            series = (*part.lines, *part.bands, *part.bars, *part.marks)
            yield from (plot.y_words, *(one.title for one in series))
        return
    for row in part.rows:
        yield row.title
        yield from (s.label for s in row.spans if s.start <= part.end and s.end >= part.start)
        yield from (m.label for m in row.moments if part.start <= m.day <= part.end)


def check_terminal(answer: Answer, look: Look, rendered: str | None = None) -> None:
    """All at a great width, and not a letter less of it at the width that is asked for."""
    check_widths(answer, (look,), rendered)


def check_widths(answer: Answer, looks: Iterable[Look], rendered: str | None = None) -> None:
    """As `check_terminal`, for looks that differ in width and colour alone."""
    plain, *others = (replace(look, colour=False) for look in looks)
    wide = rendered or render_text(answer, replace(plain, width=WIDE))
    check_words(Reader(squeezed(wide)), answer, plain, terminal=True)
    if rendered is None:
        words = without_drawings(answer)
        all_of_it = _letters(render_text(words, replace(plain, width=WIDE)))
        for look in (plain, *others):
            missing = all_of_it - _letters(render_text(words, look))
            assert not missing, f"left out at {look.width} columns: {dict(missing)}"


def without_drawings(answer: Answer) -> Answer:
    """The answer without what is drawn anew for each width."""
    return replace(
        answer,
        parts=_undrawn(answer.parts),
        sections=tuple(replace(s, parts=_undrawn(s.parts)) for s in answer.sections),
    )


def _undrawn(parts: Iterable[Part]) -> tuple[Part, ...]:
    return tuple(part for part in parts if not isinstance(part, Chart | Timeline))


def _letters(text: str) -> Counter[str]:
    return Counter(sign for sign in text if sign.isalnum())


def check_json(written: str, answer: Answer, look: Look) -> None:
    """Every part under its key with its values, all notes, warnings and extra keys."""
    found = json.loads(written, parse_constant=_no_constant)
    extra = {str(key): plain_value(value, look.zone) for key, value in answer.extra.items()}
    for key, value in extra.items():
        assert found[key] == value or key == "format", key
    if "title" not in extra:
        assert found["title"] == answer.title
    if "warnings" not in extra:
        assert found["warnings"] == list(answer.warnings)
    _check_json_parts(found, answer.parts, look, set(extra))
    assert "sections" in extra or len(found["sections"]) == len(answer.sections)
    for data, section in zip(found["sections"], answer.sections, strict=False):
        assert data["title"] == section.title
        _check_json_parts(data, section.parts, look, set())


def _no_constant(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


def _check_json_parts(data: Any, parts: Iterable[Part], look: Look, taken: set[str]) -> None:
    words = [part for part in parts if isinstance(part, Words)]
    if "notes" not in taken:
        said = [{"text": part.text, "tone": part.tone.value} for part in words]
        assert data["notes"] == said
    for part in parts:
        if isinstance(part, Fact):
            _check_value(data, part.key, part.value, part.kind, look, taken)
            if fact_basis(part):
                assert data[f"{part.key}_basis"]["rule"]
        elif not isinstance(part, Words) and part.key not in taken:
            _check_json_part(data[part.key], part, look)


def _check_json_part(data: Any, part: Part, look: Look) -> None:
    if isinstance(part, Table):
        assert len(data) == len(part.rows)
        for number, (row, found) in enumerate(zip(part.rows, data, strict=True)):
            assert not part.breaks or found["before"] == dict(part.breaks).get(number)
            for column, cell in zip(part.columns, row, strict=True):
                _check_value(found, column.key, cell, column.kind, look, set())
    elif isinstance(part, Drawing):
        expected = {str(key): plain_value(value, look.zone) for key, value in part.data.items()}
        assert expected.items() <= data.items()
        assert (data["title"], data[f"width_{part.unit}"]) == (part.title, part.width)
    elif isinstance(part, Chart):
        for name in ("lines", "bands", "bars", "marks"):
            series = getattr(part, name)
            assert [(d["title"], len(d["x"])) for d in data[name]] == [
                (one.title, len(one.x)) for one in series
            ]
    elif isinstance(part, Strip):
        told = [(d["picture"], d["digest"], tuple(d["words"]), d["size_bytes"]) for d in data]
        shots = [(s.number, s.digest, s.words, s.size_bytes) for s in part.shots]
        assert told == shots
    elif isinstance(part, Timeline):
        assert [(row["title"], len(row["spans"]), len(row["moments"])) for row in data["rows"]] == [
            (row.title, len(row.spans), len(row.moments)) for row in part.rows
        ]


def _check_value(data: Any, key: str, value: Any, kind: Any, look: Look, taken: set[str]) -> None:
    if isinstance(value, Estimate):
        suffix = value.unit.suffix
        numbers = {"": value.value, "_low": value.low, "_high": value.high}
    else:
        suffix = kind.suffix if isinstance(kind, Unit) else ""
        numbers = {"": value}
    for middle, number in numbers.items():
        name = f"{key}{middle}{suffix}"
        assert name in taken or data[name] == plain_value(number, look.zone), name


def pdf_text(path: Path, foot: str, *, drawn: bool = False) -> str:
    """The words of all pages without the foot and the numbers of the pages, squeezed.

    PDFium takes a twentieth of pypdf's time, but reads what is `drawn` in an order of its own.
    """
    pages = []
    for number, text in enumerate(_as_written(path) if drawn else _as_seen(path), 1):
        first = f"{squeezed(foot)}page{number}"
        assert squeezed(text).startswith(first)
        pages.append(squeezed(text).removeprefix(first))
    return "".join(pages)


def _as_seen(path: Path) -> Iterator[str]:
    with PdfDocument(path) as document:
        for number in range(len(document)):
            text = document[number].get_textpage().get_text_range()
            yield text.replace(BROKEN, "-")


def _as_written(path: Path) -> Iterator[str]:
    return (page.extract_text() for page in PdfReader(path).pages)


def check_svg(written: str, answer: Answer, look: Look) -> None:
    """The titles, names and labels of all that is drawn."""
    root = ElementTree.fromstring(written.split("?>", 1)[1])
    reader = Reader(squeezed("\n".join(root.itertext())))
    for part in answer.all_parts():
        if isinstance(part, Chart | Timeline | Drawing):
            _check_part(reader, part, look, False)


class _Text(HTMLParser):
    """The words of a fragment, and whether every element is closed in its order."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert not {name for name, _ in attrs} & {"style", "id", "onclick"}
        if tag == "img":  # which has no end
            return
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def check_html(written: str, answer: Answer, look: Look) -> None:
    """All words in order, the warnings last, every element closed."""
    parser = _Text()
    parser.feed(written)
    parser.close()
    assert parser.open == []
    reader = Reader(squeezed("\n".join(parser.words)))
    check_words(reader, answer, look)
    for warning in answer.warnings:
        reader.next(warning)
