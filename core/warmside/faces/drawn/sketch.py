"""What every drawing comes down to before paper or screen: lines, areas, circles and words.

Places are in points, x to the right and y downwards from the upper left corner; greys go from 0,
black, to 1, white.
"""

from __future__ import annotations

from msgspec import Struct

from warmside.faces.paper.page_fonts import REGULAR

Point = tuple[float, float]
Dash = tuple[float, ...]

BLACK, WHITE = 0.0, 1.0


class Pen(Struct, frozen=True):
    """How a line is drawn: points thick, how grey, points on and off in turn."""

    thick: float = 0.6
    grey: float = BLACK
    dash: Dash = ()


class Poly(Struct, frozen=True):
    """A line through points, or, where closed, the area within them."""

    points: tuple[Point, ...]
    pen: Pen | None
    closed: bool = False
    fill: float | None = None


class Round(Struct, frozen=True):
    """A circle."""

    centre: Point
    radius: float
    pen: Pen | None
    fill: float | None = None


class Text(Struct, frozen=True):
    """Words set in a face, their baseline beginning at the place."""

    place: Point
    text: str
    size: float
    font: str = REGULAR


Trace = Poly | Round | Text


class Sketch(Struct, frozen=True):
    """A drawing made ready, with what it is called; the first trace lies at the back."""

    title: str
    width: float
    height: float
    traces: tuple[Trace, ...]
