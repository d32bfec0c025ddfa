"""What drawings are made of, in black and greys so that they copy well: lines, areas, words.

Places are in points, x to the right and y downwards from the upper left corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from reportlab.graphics import shapes
from reportlab.graphics.shapes import Drawing
from reportlab.lib.colors import Color, black, white

from warmside.faces.page_fonts import REGULAR, Type, width

SMALL, NORMAL, TITLE = 7.0, 8.0, 10.0
LETTER = 5.2  # the breadth of a digit or hyphen at the normal size, rounded up
WIDTH = 480.0
PALE, MIDDLE, GRID = Color(0.88, 0.88, 0.88), Color(0.76, 0.76, 0.76), Color(0.84, 0.84, 0.84)

Point = tuple[float, float]
Dash = list[float] | None

DASHES: tuple[Dash, ...] = (None, [6, 3], [1.2, 2.2])
_HATCH = 3.5
_POINT = 2.3


@dataclass(slots=True)
class Sheet:
    """A drawing in the making; `end` turns it into ReportLab's, whose y goes up."""

    type: Type
    shapes: list[shapes.Shape] = field(default_factory=list)

    def end(self, height: float) -> Drawing:
        """The drawing, WIDTH wide and so high."""
        group = shapes.Group(*self.shapes, transform=(1, 0, 0, 1, 0, height))
        return Drawing(WIDTH, height, group)

    def words(self, place: Point, text: str, size: float, font: str = REGULAR) -> None:
        """Text that was set and measured, its baseline beginning at the place."""
        y = round(place[1] * 2) / 2  # the SVG writer keeps halves only
        self.shapes.append(
            shapes.String(place[0], -y, text, fontName=font, fontSize=size, fillColor=black)
        )

    def centred(self, place: Point, text: str, size: float, font: str = REGULAR) -> None:
        """Text with the middle of its baseline at the place."""
        self.words((place[0] - width(text, size, font) / 2, place[1]), text, size, font)

    def line(
        self,
        start: Point,
        end: Point,
        thick: float = 0.6,
        colour: Color = black,
        dash: Dash = None,
    ) -> None:
        """A straight line."""
        self._path([start, end], thick, colour, dash)

    def curve(self, points: Sequence[Point], dash: Dash) -> None:
        """A line through points; a dot where there is only one."""
        if len(points) == 1:
            x, y = points[0]
            self.shapes.append(shapes.Circle(x, -y, 1.2, fillColor=black, strokeColor=None))
            return
        self._path(points, 1.2, black, dash)

    def area(self, points: Sequence[Point], fill: Color | None, dash: Dash = None) -> None:
        """A closed area; without fill its outline."""
        self.shapes.append(
            shapes.Polygon(
                _flat(points),
                fillColor=fill,
                strokeColor=None if fill else black,
                strokeWidth=0.5,
                strokeDashArray=dash,
            )
        )

    def box(self, start: Point, size: Point, fill: Color, dash: Dash = None) -> None:
        """A filled and outlined rectangle from its upper left corner."""
        self.shapes.append(
            shapes.Rect(
                start[0],
                -start[1] - size[1],
                *size,
                fillColor=fill,
                strokeColor=black,
                strokeWidth=0.5,
                strokeDashArray=dash,
            )
        )

    def point(self, place: Point, number: int) -> None:
        """The mark of a measured point: circle, square, triangle, cross."""
        x, y = place[0], -place[1]
        style = {"fillColor": white, "strokeColor": black, "strokeWidth": 0.9}
        r = _POINT
        kind = number % 4
        if kind == 0:
            self.shapes.append(shapes.Circle(x, y, r, **style))
        elif kind == 1:
            self.shapes.append(shapes.Rect(x - r, y - r, 2 * r, 2 * r, **style))
        elif kind == 2:
            self.shapes.append(
                shapes.Polygon([x - r, y - r, x + r, y - r, x, y + 1.2 * r], **style)
            )
        else:
            self.line((x - r, -y - r), (x + r, -y + r), 0.9)
            self.line((x - r, -y + r), (x + r, -y - r), 0.9)

    def shade(self, upper: Sequence[Point], lower: Sequence[Point], number: int) -> None:
        """The area between two curves over the same x: pale, hatched upright, or outlined."""
        if number % 3 == 0:
            self.area([*upper, *reversed(lower)], PALE)
        elif number % 3 == 1:
            self._hatch(upper, lower)
        else:
            self.area([*upper, *reversed(lower)], None, [1.2, 2.2])

    def _path(self, points: Sequence[Point], thick: float, colour: Color, dash: Dash) -> None:
        """A poly-line even for two points: the SVG writer draws a plain line there and back."""
        self.shapes.append(
            shapes.PolyLine(
                _flat(points),
                strokeWidth=thick,
                strokeColor=colour,
                strokeLineJoin=1,
                strokeDashArray=dash,
            )
        )

    def _hatch(self, upper: Sequence[Point], lower: Sequence[Point]) -> None:
        """Upright strokes at even distances, the ends straight between the points."""
        x, stretch = upper[0][0], 0
        while x <= upper[-1][0]:
            while stretch < len(upper) - 2 and upper[stretch + 1][0] < x:
                stretch += 1
            ends = [_between(curve[stretch : stretch + 2], x) for curve in (upper, lower)]
            self.line((x, ends[0]), (x, ends[1]), 0.4)
            x += _HATCH


def _between(pair: Sequence[Point], x: float) -> float:
    (x0, y0), (x1, y1) = pair[0], pair[-1]
    return y0 if x1 == x0 else y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def _flat(points: Sequence[Point]) -> list[float]:
    return [number for x, y in points for number in (x, -y)]
