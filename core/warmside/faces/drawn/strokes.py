"""What charts and timelines are made of, in black and greys so that they copy well."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field

from warmside.faces.drawn.fills import hatching
from warmside.faces.drawn.sketch import (
    BLACK,
    WHITE,
    Dash,
    Pen,
    Point,
    Poly,
    Round,
    Sketch,
    Text,
    Trace,
)
from warmside.faces.paper.page_fonts import REGULAR, Type, width

SMALL, NORMAL, TITLE = 7.0, 8.0, 10.0
LETTER = 5.2  # the breadth of a digit or hyphen at the normal size, rounded up
WIDTH = 480.0
PALE, MIDDLE, GRID = 0.88, 0.76, 0.84

DASHES: tuple[Dash, ...] = (
    (),
    (6, 3),
    (1.2, 2.2),
    (9, 2.5, 1.2, 2.5),
    (14, 4),
    (6, 2, 1.2, 2, 1.2, 2),
)
_THICK, _THIN = 1.2, 0.6
_UPRIGHT = 3.5
_POINT = 2.3


def curve_pen(number: int) -> Pen:
    """How the curve of this number is drawn: the seventh as the first, but thinner."""
    turn, dash = divmod(number, len(DASHES))
    return Pen(_THIN if turn % 2 else _THICK, BLACK, DASHES[dash])


class Sheet(Struct):
    """A drawing in the making."""

    type: Type
    width: float = WIDTH
    traces: list[Trace] = field(default_factory=list)

    def end(self, title: str, height: float) -> Sketch:
        """What was drawn, down to this height."""
        return Sketch(title, self.width, height, tuple(self.traces))

    def words(self, place: Point, text: str, size: float, font: str = REGULAR) -> None:
        """Text that was set and measured, its baseline beginning at the place."""
        self.traces.append(Text(place, text, size, font))

    def centred(self, place: Point, text: str, size: float, font: str = REGULAR) -> None:
        """Text with the middle of its baseline at the place."""
        self.words((place[0] - width(text, size, font) / 2, place[1]), text, size, font)

    def line(
        self,
        start: Point,
        end: Point,
        thick: float = 0.6,
        grey: float = BLACK,
        dash: Dash = (),
    ) -> None:
        """A straight line."""
        self.traces.append(Poly((start, end), Pen(thick, grey, dash)))

    def curve(self, points: Sequence[Point], number: int) -> None:
        """The curve of this number through points; a dot where there is only one."""
        if len(points) == 1:
            self.traces.append(Round(points[0], _THICK, None, BLACK))
        else:
            self.traces.append(Poly(tuple(points), curve_pen(number)))

    def area(self, points: Sequence[Point], fill: float | None, dash: Dash = ()) -> None:
        """A closed area; without fill its outline."""
        pen = Pen(0.5, BLACK, dash) if fill is None else None
        self.traces.append(Poly(tuple(points), pen, True, fill))

    def box(self, start: Point, size: Point, fill: float, dash: Dash = ()) -> None:
        """A filled and outlined rectangle from its upper left corner."""
        self.traces.append(Poly(_corners(start, size), Pen(0.5, BLACK, dash), True, fill))

    def bar(self, start: Point, size: Point, number: int) -> None:
        """The bar of a series: grey, hatched, white, black."""
        corners = _corners(start, size)
        fill = (MIDDLE, WHITE, WHITE, BLACK)[number % 4]
        self.traces.append(Poly(corners, Pen(0.6), True, fill))
        if number % 4 == 1:
            for one, other in hatching(corners):
                self.line(one, other, 0.5)

    def point(self, place: Point, number: int) -> None:
        """The mark of a measured point: circle, square, triangle, cross."""
        (x, y), r, pen = place, _POINT, Pen(0.9)
        kind = number % 4
        if kind == 0:
            self.traces.append(Round(place, r, pen, WHITE))
        elif kind == 1:
            self.traces.append(Poly(_corners((x - r, y - r), (2 * r, 2 * r)), pen, True, WHITE))
        elif kind == 2:
            corners = ((x - r, y + r), (x + r, y + r), (x, y - 1.2 * r))
            self.traces.append(Poly(corners, pen, True, WHITE))
        else:
            self.line((x - r, y - r), (x + r, y + r), 0.9)
            self.line((x - r, y + r), (x + r, y - r), 0.9)

    def shade(self, upper: Sequence[Point], lower: Sequence[Point], number: int) -> None:
        """The area between two curves over the same x: pale, hatched upright, or outlined."""
        if number % 3 == 0:
            self.area([*upper, *reversed(lower)], PALE)
        elif number % 3 == 1:
            self._upright(upper, lower)
        else:
            self.area([*upper, *reversed(lower)], None, (1.2, 2.2))

    def _upright(self, upper: Sequence[Point], lower: Sequence[Point]) -> None:
        """Upright strokes at even distances, the ends straight between the points."""
        x, stretch = upper[0][0], 0
        while x <= upper[-1][0]:
            while stretch < len(upper) - 2 and upper[stretch + 1][0] < x:
                stretch += 1
            ends = [_between(curve[stretch : stretch + 2], x) for curve in (upper, lower)]
            self.line((x, ends[0]), (x, ends[1]), 0.4)
            x += _UPRIGHT


def _corners(start: Point, size: Point) -> tuple[Point, ...]:
    (x, y), (wide, high) = start, size
    return ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))


def _between(pair: Sequence[Point], x: float) -> float:
    (x0, y0), (x1, y1) = pair[0], pair[-1]
    return y0 if x1 == x0 else y0 + (y1 - y0) * (x - x0) / (x1 - x0)
