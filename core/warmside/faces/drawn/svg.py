"""The SVG face: the drawings of an answer in one picture."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from warmside.core.answers.parts import Answer, Chart, Drawing, Timeline
from warmside.core.values.errors import BadInput
from warmside.faces.drawn.shapes import sketch_of
from warmside.faces.drawn.sketch import Sketch
from warmside.faces.drawn.sketch_svg import FAMILY, SPACE, drawn
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type
from warmside.faces.terminal.visible import visible_line
from warmside.faces.web.markup import element

_MARGIN, _GAP = 12.0, 18.0
_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'


def render_svg(answer: Answer, look: Look) -> str:
    """The answer's drawings, one above the other, as an SVG document; BadInput if it has none.

    The document has a size in points and a viewBox, so that a page can show it at any width.
    """
    kind = Type(fallback=True)
    drawings = [p for p in answer.all_parts() if isinstance(p, Chart | Timeline | Drawing)]
    if not drawings:
        raise BadInput("this answer has no drawing to save as SVG; choose text, JSON or PDF")
    return _HEAD + _document(answer.title, [sketch_of(part, look, kind) for part in drawings])


def _document(title: str, sketches: Sequence[Sketch]) -> str:
    tops = list(accumulate((s.height + _GAP for s in sketches), initial=_MARGIN))
    width = max(sketch.width for sketch in sketches) + 2 * _MARGIN
    height = tops[-1] - _GAP + _MARGIN
    size = {
        "width": f"{width:g}pt",
        "height": f"{height:g}pt",
        "viewBox": f"0 0 {width:g} {height:g}",
    }
    groups = [
        element("g", drawn(sketch.traces), transform=f"translate({_MARGIN:g} {top:g})")
        for sketch, top in zip(sketches, tops, strict=False)
    ]
    paper = element("rect", width="100%", height="100%", fill="#ffffff")
    said = element("title", visible_line(title)) if title else None
    return element("svg", said, paper, *groups, xmlns=SPACE, font_family=FAMILY, **size)
