"""A sketch as an SVG element: presentation attributes only, no style, no id, no address.

Nothing is named that could be named twice in a document, and a strict content security policy has
nothing to forbid.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from warmside.faces.drawn.sketch import Pen, Point, Poly, Round, Sketch, Text, Trace
from warmside.faces.paper.page_fonts import BOLD, OBLIQUE
from warmside.faces.web.markup import Attribute, Markup, element

SPACE = "http://www.w3.org/2000/svg"
FAMILY = "'DejaVu Sans', Verdana, system-ui, sans-serif"


def inline(sketch: Sketch, name: str, *, own_size: bool = False) -> Markup:
    """The sketch within a page of HTML, as wide as there is room, or in its own size.

    `name` is read out for it.
    """
    box = f"0 0 {_number(sketch.width)} {_number(sketch.height)}"
    wide = f"{_number(sketch.width)}pt" if own_size else "100%"
    head = {"viewBox": box, "width": wide, "role": "img", "aria_label": name}
    return element("svg", drawn(sketch.traces), xmlns=SPACE, font_family=FAMILY, **head)


def drawn(traces: Iterable[Trace]) -> Markup:
    """The elements of traces, the first at the back."""
    return Markup("".join(map(_element, traces)))


def _element(trace: Trace) -> Markup:
    match trace:
        case Poly():
            tag = "polygon" if trace.closed else "polyline"
            return element(tag, points=_points(trace.points), **_style(trace.pen, trace.fill))
        case Round():
            place = {"cx": _number(trace.centre[0]), "cy": _number(trace.centre[1])}
            style = _style(trace.pen, trace.fill)
            return element("circle", **place, r=_number(trace.radius), **style)
        case Text():
            place = {"x": _number(trace.place[0]), "y": _number(trace.place[1])}
            weight = "bold" if trace.font == BOLD else None
            slant = "italic" if trace.font == OBLIQUE else None
            size = _number(trace.size)
            more = {"font_size": size, "font_weight": weight, "font_style": slant}
            return element("text", trace.text, **place, **more)
        case _:
            assert_never(trace)


def _style(pen: Pen | None, fill: float | None) -> dict[str, Attribute]:
    style: dict[str, Attribute] = {"fill": _grey(fill)}
    if pen is not None:
        style |= {"stroke": _grey(pen.grey), "stroke_width": pen.thick, "stroke_linejoin": "round"}
        style["stroke_dasharray"] = " ".join(map(_number, pen.dash)) or None
    return style


def _grey(share: float | None) -> str:
    if share is None:
        return "none"
    return f"#{round(255 * share):02x}" + f"{round(255 * share):02x}" * 2


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _number(value: float) -> str:
    """Hundredths of a point are finer than any screen."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
