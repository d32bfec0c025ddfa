"""The check of `test_every_face` bites: each face that leaves a thing out fails it.

A face that drops a part, a row or a label gives what it would give for an answer without it; so
each face is shown an answer that lacks one thing, and checked against the whole one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from faces.specimen import LOOK, SPECIMEN
from faces.whole import (
    WIDE,
    Reader,
    check_html,
    check_json,
    check_svg,
    check_terminal,
    check_words,
    pdf_text,
)
from warmside.core.answers.drawings import Label
from warmside.core.answers.parts import (
    Answer,
    Chart,
    Drawing,
    Fact,
    Part,
    Section,
    Table,
    Timeline,
    Words,
)
from warmside.core.values.errors import BadInput
from warmside.faces.data.json_face import render_json
from warmside.faces.drawn.svg import render_svg
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.pdf import render_pdf
from warmside.faces.terminal.text import render_text
from warmside.faces.web.html import render_html

DATE_LINE = "as of 2026-03-05"


def terminal(shown: Answer, meant: Answer, folder: Path) -> None:
    check_terminal(meant, LOOK, render_text(shown, replace(LOOK, width=WIDE)))


def as_json(shown: Answer, meant: Answer, folder: Path) -> None:
    check_json(render_json(shown, LOOK.zone), meant, LOOK)


def pdf(shown: Answer, meant: Answer, folder: Path) -> None:
    render_pdf(shown, LOOK, folder / "a.pdf", date_line=DATE_LINE)
    reader = Reader(pdf_text(folder / "a.pdf", f"{shown.title} {DATE_LINE}"), Type().set)
    check_words(reader, meant, LOOK)


def svg(shown: Answer, meant: Answer, folder: Path) -> None:
    check_svg(render_svg(shown, LOOK), meant, LOOK)


def html(shown: Answer, meant: Answer, folder: Path) -> None:
    check_html(render_html(shown, LOOK), meant, LOOK)


FACES: dict[str, Callable[[Answer, Answer, Path], None]] = {
    "terminal": terminal,
    "json": as_json,
    "pdf": pdf,
    "svg": svg,
    "html": html,
}
PRINTED = {"terminal", "pdf", "html"}
DRAWN = {*PRINTED, "svg"}
ALL = {*DRAWN, "json"}

Poorer = tuple[set[str], str, Answer, Answer]
"""The faces that are missing something, what it is, the answer without it, the whole answer."""


def without(items: tuple[Any, ...], number: int) -> tuple[Any, ...]:
    return items[:number] + items[number + 1 :]


def poorer_answers() -> Iterator[Poorer]:
    """Each part of the specimen with one thing less, alone so that it renders fast."""
    section = Section("Days", (Words("the last words"),))
    whole = Answer("Whole", (), (section,), ("beside it",), {"more": (1, 2)})
    yield {"json", "html"}, "warnings", replace(whole, warnings=()), whole
    yield {"json"}, "extra", replace(whole, extra={}), whole
    yield {*PRINTED, "json"}, "title", replace(whole, title=""), whole
    yield {*PRINTED, "json"}, "section", replace(whole, sections=()), whole
    for lacking in (replace(section, title=""), replace(section, parts=())):
        yield {*PRINTED, "json"}, "of a section", replace(whole, sections=(lacking,)), whole
    for part in SPECIMEN.all_parts():
        meant = Answer("Whole", (part,))
        for name, faces, parts in poorer_parts(part):
            yield faces, name, Answer("Whole", parts), meant


def poorer_parts(part: Part) -> Iterator[tuple[str, set[str], tuple[Part, ...]]]:
    """The part left out, and then the part without one thing in it."""
    drawn = isinstance(part, Chart | Timeline | Drawing)
    name = getattr(part, "key", None) or part.text  # type: ignore[union-attr]
    yield name, ALL if drawn else ALL - {"svg"}, ()
    if isinstance(part, Fact) and part.basis is None and part.key == "need_now":
        yield f"value of {name}", ALL - {"svg"}, (replace(part, value=None),)
    if isinstance(part, Table) and part.rows:
        for number in range(len(part.rows)):
            breaks = tuple(b for b in part.breaks if b[0] < len(part.rows) - 1)
            poor = replace(part, rows=without(part.rows, number), breaks=breaks)
            yield f"row {number} of {name}", {*PRINTED, "json"}, (poor,)
        for number, column in enumerate(part.columns):
            rows = tuple(without(row, number) for row in part.rows)
            poor = replace(part, columns=without(part.columns, number), rows=rows)
            faces = {*PRINTED, "json"} if column.text else {"json"}
            yield f"column {column.key} of {name}", faces, (poor,)
        yield f"breaks of {name}", {*PRINTED, "json"}, (replace(part, breaks=()),)
        yield f"title of {name}", PRINTED, (replace(part, title=""),)
    if isinstance(part, Chart):
        for kind in ("lines", "bands", "bars", "marks"):
            for number, one in enumerate(getattr(part, kind)):
                poor = replace(part, **{kind: without(getattr(part, kind), number)})
                yield f"{one.title} of {name}", ALL, (poor,)
    if isinstance(part, Timeline):
        yield f"a row of {name}", ALL, (replace(part, rows=part.rows[:-1]),)
        bare = replace(part.rows[0], spans=part.rows[0].spans[1:])
        yield f"a span of {name}", ALL, (replace(part, rows=(bare, *part.rows[1:])),)
        bare = replace(part.rows[0], moments=part.rows[0].moments[:1])
        yield f"a mark of {name}", ALL, (replace(part, rows=(bare, *part.rows[1:])),)
    if isinstance(part, Drawing):
        for number, shape in enumerate(part.shapes):
            if isinstance(shape, Label):
                poor = replace(part, shapes=without(part.shapes, number))
                yield f"label {shape.text}", DRAWN - {"terminal"}, (poor,)
        for number in range(len(part.text)):
            poor = replace(part, text=without(part.text, number))
            yield f"line {number} of {name}", {"terminal"}, (poor,)
        for key in part.data:
            poor = replace(part, data={k: v for k, v in part.data.items() if k != key})
            yield f"key {key} of {name}", {"json"}, (poor,)


@pytest.mark.parametrize("face", FACES)
def test_each_face_says_the_whole_specimen(face: str, tmp_path: Path) -> None:
    FACES[face](SPECIMEN, SPECIMEN, tmp_path)


@pytest.mark.parametrize("width", [40, 80, 200])
def test_a_narrow_terminal_says_as_much_as_a_wide_one(width: int) -> None:
    check_terminal(SPECIMEN, replace(LOOK, width=width))


@pytest.mark.parametrize("face", FACES)
def test_what_a_face_leaves_out_is_noticed(face: str, tmp_path: Path) -> None:
    poorer = [rest for faces, *rest in poorer_answers() if face in faces]
    assert len(poorer) > 15
    for name, shown, meant in poorer:
        try:
            FACES[face](shown, meant, tmp_path)
        except (AssertionError, KeyError, BadInput):
            continue
        pytest.fail(f"nobody would notice that {face} leaves out: {name}")
