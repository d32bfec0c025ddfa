"""The drawing of a part made ready for paper or screen: its shapes in points, its labels set."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from warmside.core.answers.drawings import (
    POINTS,
    Box,
    Diamond,
    Disc,
    Drawing,
    Fill,
    Label,
    Path,
    Shape,
    Stroke,
)
from warmside.faces.drawn.fills import circle, hatching, left_half
from warmside.faces.drawn.sketch import BLACK, WHITE, Pen, Point, Poly, Round, Sketch, Text, Trace
from warmside.faces.drawn.strokes import TITLE
from warmside.faces.paper.page_fonts import BOLD, REGULAR, Type, width

_SHARES = {"start": 0.0, "middle": 0.5, "end": 1.0}
_HATCH = Pen(0.5)


def shapes_sketch(drawing: Drawing, kind: Type, most: float) -> Sketch:
    """The title and the drawing below it, in its own size or as wide as `most` points.

    One that is made smaller only as a whole comes in its own size.
    """
    own, _ = drawing.points
    scale = POINTS[drawing.unit] * (1.0 if drawing.whole else min(1.0, most / own))
    wide = max(drawing.width * scale, most / 2)
    lines = kind.lines(drawing.title, TITLE, wide, BOLD) if drawing.title else []
    titles = [Text((0, (n + 1) * (TITLE + 2)), line, TITLE, BOLD) for n, line in enumerate(lines)]
    top = len(titles) * (TITLE + 2) + (6 if titles else 0)
    placed = _Placed(scale, top, kind)
    traces = [trace for shape in drawing.shapes for trace in placed.traces(shape)]
    height = top + drawing.height * scale
    return Sketch(drawing.title, wide, height, (*titles, *traces))


class _Placed:
    """Shapes at their scale, below the title."""

    def __init__(self, scale: float, top: float, kind: Type) -> None:
        self._scale, self._top, self._type = scale, top, kind

    def traces(self, shape: Shape) -> Iterator[Trace]:
        """What a shape is drawn with."""
        match shape:
            case Stroke():
                ends = (self._at(shape.start), self._at(shape.end))
                yield Poly(ends, Pen(shape.thick, dash=shape.dash))
            case Path():
                yield from self._path(shape)
            case Box():
                yield from _filled(self._box(shape), shape.fill, Pen(shape.thick))
            case Diamond():
                yield from _filled(self._diamond(shape), shape.fill, Pen(shape.thick))
            case Disc():
                yield from self._disc(shape)
            case Label():
                yield self._label(shape)
            case _:
                assert_never(shape)

    def _at(self, place: Point) -> Point:
        return place[0] * self._scale, self._top + place[1] * self._scale

    def _path(self, path: Path) -> Iterator[Trace]:
        points = tuple(map(self._at, path.points))
        pen = Pen(path.thick, dash=path.dash)
        if path.closed:
            yield from _filled(points, path.fill, pen)
        else:
            yield Poly(points, pen)

    def _box(self, box: Box) -> tuple[Point, ...]:
        (x, y), wide, high = box.corner, box.width, box.height
        corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
        return tuple(map(self._at, corners))

    def _diamond(self, diamond: Diamond) -> tuple[Point, ...]:
        (x, y), r = diamond.centre, diamond.radius
        return tuple(map(self._at, ((x, y - r), (x + r, y), (x, y + r), (x - r, y))))

    def _disc(self, disc: Disc) -> Iterator[Trace]:
        """A true circle over the fill, whose many corners it hides."""
        centre, radius = self._at(disc.centre), disc.radius * self._scale
        yield Round(centre, radius, None, BLACK if disc.fill is Fill.FULL else WHITE)
        yield from _fill(circle(centre, radius), disc.fill)
        yield Round(centre, radius, Pen(disc.thick))

    def _label(self, label: Label) -> Text:
        font = BOLD if label.bold else REGULAR
        text = self._type.set(label.text, font).replace("\n", " ")
        x, y = self._at(label.place)
        back = width(text, label.size, font) * _SHARES[label.anchor]
        return Text((x - back, y), text, label.size, font)


def _filled(outline: tuple[Point, ...], fill: Fill, pen: Pen) -> Iterator[Trace]:
    """White paper, the fill, and the outline on top."""
    yield Poly(outline, None, True, BLACK if fill is Fill.FULL else WHITE)
    yield from _fill(outline, fill)
    yield Poly(outline, pen, True)


def _fill(outline: tuple[Point, ...], fill: Fill) -> Iterator[Trace]:
    if fill is Fill.HALF:
        yield Poly(left_half(outline), None, True, BLACK)
    elif fill is Fill.HATCH:
        yield from (Poly(ends, _HATCH) for ends in hatching(outline))
