"""The PDF face: a whole answer as an A4 or Letter report that prints well in black and white."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from warmside.core.answers.parts import Answer, Drawing
from warmside.core.values.errors import BadInput
from warmside.faces.look import Look
from warmside.faces.paper.one_page import one_page_story
from warmside.faces.paper.page_fonts import REGULAR, Type, width
from warmside.faces.paper.page_parts import page_story

_SIZES = {"a4": A4, "letter": LETTER}
_SIDE, _TOP, _BOTTOM = 56.0, 54.0, 60.0  # leaves 483 points of A4, a drawing and a little
_FOOT = 34.0
_HEAD = 68.0  # what title, date line and a space below take
_SMALL = 8.0


def render_pdf(answer: Answer, look: Look, path: Path, *, date_line: str = "") -> tuple[str, ...]:
    """Write the answer to `path`; what could not be shown comes back as warnings.

    An answer that asks for one page gets one, and on it what was left out is said.
    `date_line` stands under the title and at the foot of every page. The same answer gives the
    same bytes. Raises BadInput where the file cannot be written.
    """
    kind = Type()
    wide, room = _size(answer)[0] - 2 * _SIDE, _room(answer)
    look = replace(look, sheet=(wide, room - _HEAD))
    story, left_out = _story(answer, look, kind, date_line)
    document = _document(answer, path, kind, date_line)
    try:
        document.build(story)
    except OSError as error:
        reason = error.strerror or error
        raise BadInput(f"cannot write {path}: {reason}; choose another place") from error
    return (*left_out, *kind.warnings())


def _story(
    answer: Answer, look: Look, kind: Type, date_line: str
) -> tuple[list[Flowable], tuple[str, ...]]:
    if answer.page == "flow":
        return page_story(answer, look, kind, date_line), ()
    story, said = one_page_story(answer, look, kind, date_line, _room(answer))
    return story, (said,) if said else ()


def _room(answer: Answer) -> float:
    """The points from top to bottom that may be filled."""
    return float(_size(answer)[1] - _TOP - _BOTTOM)


def _size(answer: Answer) -> tuple[float, float]:
    """The page across and down; on its side where a drawing as a whole is larger on it so."""
    wide, high = _SIZES[answer.paper]
    whole = next((p for p in answer.parts if isinstance(p, Drawing) and p.whole), None)
    if whole is None or _share(whole, wide, high) >= _share(whole, high, wide):
        return wide, high
    return high, wide


def _share(drawing: Drawing, wide: float, high: float) -> float:
    """How large the drawing may be on such a page, of its own size, and no larger than that."""
    across, down = drawing.points
    return min(1.0, (wide - 2 * _SIDE) / across, (high - _TOP - _BOTTOM - _HEAD) / down)


def _document(answer: Answer, path: Path, kind: Type, date_line: str) -> BaseDocTemplate:
    document = BaseDocTemplate(
        str(path),
        pagesize=_size(answer),
        title=kind.set(answer.title).replace("\n", " "),
        creator="warmside",
        lang="en",
        invariant=1,
    )
    wide = _size(answer)[0]
    frame = Frame(
        _SIDE,
        _BOTTOM,
        wide - 2 * _SIDE,
        _room(answer),
        leftPadding=0,
        rightPadding=0,
        topPadding=0,
        bottomPadding=0,
    )

    def foot(canvas: Canvas, _document: BaseDocTemplate) -> None:
        _foot(canvas, kind, f"{answer.title}  {date_line}".strip(), wide)

    document.addPageTemplates(PageTemplate("page", [frame], onPage=foot))
    return document


def _foot(canvas: Canvas, kind: Type, words: str, wide: float) -> None:
    number = f"page {canvas.getPageNumber()}"
    room = wide - 2 * _SIDE - width(number, _SMALL) - 12
    canvas.setFont(REGULAR, _SMALL)
    canvas.setFillGray(0.3)
    canvas.drawString(_SIDE, _FOOT, kind.line(words, _SMALL, room))
    canvas.drawRightString(wide - _SIDE, _FOOT, number)
