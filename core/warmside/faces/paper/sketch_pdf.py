"""A sketch as ReportLab draws it on a page, where y goes upwards."""

from __future__ import annotations

from typing import Any, assert_never

from reportlab.graphics import shapes
from reportlab.lib.colors import Color

from warmside.faces.drawn.sketch import Pen, Point, Poly, Round, Sketch, Text, Trace


def page_drawing(sketch: Sketch, widest: float, highest: float) -> shapes.Drawing:
    """The sketch to fill a page with, made smaller where it is larger than that, in points."""
    group = shapes.Group(*map(_shape, sketch.traces), transform=(1, 0, 0, 1, 0, sketch.height))
    drawing = shapes.Drawing(sketch.width, sketch.height, group)
    share = min(widest / sketch.width, highest / sketch.height)
    if share < 1:
        drawing.scale(share, share)
        drawing.width, drawing.height = sketch.width * share, sketch.height * share
    return drawing


def _shape(trace: Trace) -> shapes.Shape:
    match trace:
        case Poly():
            make = shapes.Polygon if trace.closed else shapes.PolyLine
            style = _pen(trace.pen) | {"fillColor": _grey(trace.fill)}
            return make(_flat(trace.points), **style)
        case Round():
            style = _pen(trace.pen) | {"fillColor": _grey(trace.fill)}
            return shapes.Circle(trace.centre[0], -trace.centre[1], trace.radius, **style)
        case Text():
            x, y = trace.place
            style = {"fontName": trace.font, "fontSize": trace.size, "fillColor": _grey(0.0)}
            return shapes.String(x, -y, trace.text, **style)
        case _:
            assert_never(trace)


def _pen(pen: Pen | None) -> dict[str, Any]:
    if pen is None:
        return {"strokeColor": None}
    return {
        "strokeColor": _grey(pen.grey),
        "strokeWidth": pen.thick,
        "strokeLineJoin": 1,
        "strokeDashArray": list(pen.dash) or None,
    }


def _grey(share: float | None) -> Color | None:
    return None if share is None else Color(share, share, share)


def _flat(points: tuple[Point, ...]) -> list[float]:
    return [number for x, y in points for number in (x, -y)]
