"""Paragraphs of a page: plain text in, never markup, in the few styles a report needs."""

from __future__ import annotations

from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, black
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, Preformatted

from warmside.faces.paper.page_fonts import BOLD, MONO, MONO_WIDTH, OBLIQUE, REGULAR, Type
from warmside.faces.preformatted import panels, pre_lines
from warmside.faces.terminal.widths import text_width

GREY = Color(0.35, 0.35, 0.35)


def _style(name: str, size: float, font: str = REGULAR, **more: object) -> ParagraphStyle:
    return ParagraphStyle(name, fontName=font, fontSize=size, leading=size * 1.35, **more)


TITLE = _style("title", 16, BOLD, spaceAfter=2)
DATE_LINE = _style("date line", 8, textColor=GREY, spaceAfter=8)
SECTION = _style("section", 12, BOLD, spaceBefore=14, spaceAfter=4, keepWithNext=1)
CLOSE = _style("close section", 10, BOLD, spaceBefore=7, spaceAfter=2, keepWithNext=1)
BESIDE = _style("beside", 9, BOLD)
CAPTION = _style("caption", 9, BOLD, spaceBefore=6, spaceAfter=2, keepWithNext=1)
PLAIN = _style("plain", 9, spaceBefore=2, spaceAfter=4)
BREAK = _style("break", 9, spaceBefore=2, spaceAfter=4, keepWithNext=1)
CAUTION = _style(
    "caution",
    9,
    spaceBefore=8,
    spaceAfter=10,
    borderWidth=0.8,
    borderColor=black,
    borderPadding=4,
    leftIndent=5,
    rightIndent=5,
)
FIELD = _style("field", 9)
LATIN = _style("latin", 9, OBLIQUE)
_PRE_SIZE, _LEAST_PRE_SIZE = 8.5, 6.0
BASIS = _style("basis", 7, textColor=GREY, spaceAfter=2)


def paragraph(text: str, style: ParagraphStyle, kind: Type, before: str = "") -> Paragraph:
    """Text as it is, `before` it a word in bold; line feeds are kept."""
    bold = f'<font name="{BOLD}">{escape(before)}</font> ' if before else ""
    set_text = escape(kind.set(text, style.fontName)).replace("\n", "<br/>")
    return Paragraph(bold + set_text, style)


def preformatted(text: str, kind: Type, room: float) -> Preformatted:
    """Lines whose columns stay: in smaller letters, and then in panels, where room is short."""
    lines = pre_lines(kind.set(text, MONO))
    widest = max(1, *map(text_width, lines))
    size = max(_LEAST_PRE_SIZE, min(_PRE_SIZE, room / (MONO_WIDTH * widest)))
    columns = int(room / (MONO_WIDTH * size) + 1e-6)
    style = _style("preformatted", size, MONO, spaceBefore=2, spaceAfter=6)
    return Preformatted("\n".join(panels(lines, columns)), style)


def cell_style(size: float, font: str, right: bool) -> ParagraphStyle:
    """The style of a table's cell."""
    return ParagraphStyle(
        "cell", fontName=font, fontSize=size, leading=size * 1.25, alignment=TA_RIGHT * right
    )
