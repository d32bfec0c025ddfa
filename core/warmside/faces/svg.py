"""The SVG face: the drawings of an answer in one picture."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

from reportlab.graphics import renderSVG
from reportlab.graphics.shapes import Drawing, Group, Rect
from reportlab.lib.colors import white

from warmside.core.answers.parts import Answer
from warmside.core.values.errors import BadInput
from warmside.faces.look import Look
from warmside.faces.page_fonts import BOLD, OBLIQUE, REGULAR, Type
from warmside.faces.shapes import drawings_of
from warmside.faces.strokes import WIDTH
from warmside.faces.visible import visible_line

_MARGIN, _GAP = 12.0, 18.0
_FAMILY = "'DejaVu Sans', Verdana, sans-serif"
_FONTS = {
    REGULAR: {"family": _FAMILY},
    BOLD: {"family": _FAMILY, "weight": "bold"},
    OBLIQUE: {"family": _FAMILY, "style": "italic"},
}
_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'
_BLANK_TITLE = re.compile("<title>.*?</title>\\s*<desc>.*?</desc>", re.DOTALL)


def render_svg(answer: Answer, look: Look) -> str:
    """The answer's drawings, one above the other, as an SVG document; BadInput if it has none."""
    drawings = list(drawings_of(answer, look.display, Type(fallback=True)))
    if not drawings:
        raise BadInput("this answer has no drawing to save as SVG; choose text, JSON or PDF")
    written = str(renderSVG.drawToString(_stacked(drawings), fontHacks=_FONTS))
    title = f"<title>{escape(visible_line(answer.title))}</title>" if answer.title else ""
    _, start, rest = written.partition("<svg ")  # without the document type and its address
    return _HEAD + start + _BLANK_TITLE.sub(lambda _: title, rest, count=1)


def _stacked(drawings: list[Drawing]) -> Drawing:
    height = sum(drawing.height + _GAP for drawing in drawings) - _GAP + 2 * _MARGIN
    width = WIDTH + 2 * _MARGIN
    whole = Drawing(width, height, Rect(0, 0, width, height, fillColor=white, strokeColor=None))
    top = height - _MARGIN
    for drawing in drawings:
        top -= drawing.height
        whole.add(Group(*drawing.contents, transform=(1, 0, 0, 1, _MARGIN, top)))
        top -= _GAP
    return whole
