"""The drawings of an answer, whatever they show, for the page and the SVG face."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.graphics.shapes import Drawing

from warmside.core.answers.parts import Answer, Chart, Timeline
from warmside.core.values.quantities import Display
from warmside.faces.chart_shapes import chart_drawing
from warmside.faces.page_fonts import Type
from warmside.faces.timeline_shapes import timeline_drawing


def drawing_of(part: Chart | Timeline, display: Display, kind: Type) -> Drawing:
    """A chart or timeline as a drawing in black and greys, 480 points wide."""
    if isinstance(part, Chart):
        return chart_drawing(part, display, kind)
    return timeline_drawing(part, kind)


def drawings_of(answer: Answer, display: Display, kind: Type) -> Iterator[Drawing]:
    """All drawings of an answer and its sections, in their order."""
    for parts in (answer.parts, *(section.parts for section in answer.sections)):
        for part in parts:
            if isinstance(part, Chart | Timeline):
                yield drawing_of(part, display, kind)
