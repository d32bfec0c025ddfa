"""The one description of a drawing: shapes on a sheet, words for a terminal, data for JSON.

Places and sizes are in the drawing's unit, x to the right and y downwards from the upper left
corner; the thickness of strokes and the size of letters are in points. All is black on white, so
that a copy says the same. What is not finite is refused with ValueError.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from enum import StrEnum
from typing import Literal

from msgspec import Struct, field

__all__ = ("Box", "Diamond", "Disc", "Drawing", "Fill", "Label", "Path", "Shape", "Stroke")

Point = tuple[float, float]
POINTS = {"mm": 72 / 25.4, "pt": 1.0}
"""Points in each unit."""


class Fill(StrEnum):
    """What is within an outline; words on a full one cannot be read, put them beside it."""

    NONE = "none"
    HALF = "half"  # the left half is full
    FULL = "full"
    HATCH = "hatch"


class Stroke(Struct, frozen=True):
    """A straight line; `dash` is how many points are on and off in turn."""

    start: Point
    end: Point
    thick: float = 0.8
    dash: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        _finite(*self.start, *self.end, self.thick, *self.dash)


class Path(Struct, frozen=True):
    """A line through points; `closed` makes it an outline, which may be filled."""

    points: tuple[Point, ...]
    closed: bool = False
    fill: Fill = Fill.NONE
    thick: float = 0.8
    dash: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        _finite(*(n for point in self.points for n in point), self.thick, *self.dash)


class Box(Struct, frozen=True):
    """A rectangle from its upper left corner."""

    corner: Point
    width: float
    height: float
    fill: Fill = Fill.NONE
    thick: float = 0.8

    def __post_init__(self) -> None:
        _finite(*self.corner, self.width, self.height, self.thick)


class Disc(Struct, frozen=True):
    """A circle."""

    centre: Point
    radius: float
    fill: Fill = Fill.NONE
    thick: float = 0.8

    def __post_init__(self) -> None:
        _finite(*self.centre, self.radius, self.thick)


class Diamond(Struct, frozen=True):
    """A square on its corner; `radius` goes from the middle to a corner."""

    centre: Point
    radius: float
    fill: Fill = Fill.NONE
    thick: float = 0.8

    def __post_init__(self) -> None:
        _finite(*self.centre, self.radius, self.thick)


class Label(Struct, frozen=True):
    """One line of words whose baseline begins, has its middle or ends at the place."""

    place: Point
    text: str
    size: float = 8.0
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False

    def __post_init__(self) -> None:
        _finite(*self.place, self.size)


Shape = Stroke | Path | Box | Disc | Diamond | Label
"""What a drawing is made of."""


class Drawing(Struct, frozen=True):
    """Shapes on a sheet, the first at the back; made smaller where a page is narrower.

    Letters keep their size, so that a small plan can be read; with `whole` they are made smaller
    with the rest, and a page lies on its side where the drawing is wider than one that stands.
    `text` are the lines that a terminal shows, their columns kept; `data` is what JSON says
    beside title and size.
    """

    key: str
    title: str
    width: float
    height: float
    unit: Literal["mm", "pt"]
    shapes: tuple[Shape, ...]
    text: tuple[str, ...]
    data: Mapping[str, object] = field(default_factory=dict)
    whole: bool = False

    @property
    def points(self) -> tuple[float, float]:
        """Its own width and height in points."""
        scale = POINTS[self.unit]
        return self.width * scale, self.height * scale

    def __post_init__(self) -> None:
        _finite(self.width, self.height)
        if self.width <= 0 or self.height <= 0:
            raise ValueError(f"the drawing {self.key!r} has no size: give a width and a height")


def _finite(*numbers: float) -> None:
    if not all(map(math.isfinite, numbers)):
        raise ValueError("a drawing is made of finite numbers only")
