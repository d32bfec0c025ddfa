"""The drawings of an answer, whatever they show, for the page, the SVG and the HTML face."""

from __future__ import annotations

from typing import assert_never

from warmside.core.answers.parts import Chart, Drawing, Timeline
from warmside.faces.drawn.chart_shapes import chart_sketch
from warmside.faces.drawn.drawing_shapes import shapes_sketch
from warmside.faces.drawn.sketch import Sketch
from warmside.faces.drawn.strokes import WIDTH
from warmside.faces.drawn.timeline_shapes import timeline_sketch
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type


def sketch_of(
    part: Chart | Timeline | Drawing, look: Look, kind: Type, width: float = WIDTH
) -> Sketch:
    """A drawing part in black and greys, at most `width` points wide."""
    match part:
        case Chart():
            return chart_sketch(part, look, kind, width)
        case Timeline():
            return timeline_sketch(part, kind, width)
        case Drawing():
            return shapes_sketch(part, kind, width)
        case _:
            assert_never(part)
