"""The rows of a label before they are drawn: how a style is set, items, pieces, the column.

Sizes are in points, positions in millimetres. Texts are in reading order here.
"""

from __future__ import annotations

from bisect import bisect_right

from msgspec import Struct

from warmside.plugins.labels.content.label import Style
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.fonts import Face

POINT_MM = 25.4 / 72
SMALLEST_PT = 6.0  # the stated minimum; an x-height of 1.15 mm in this face
SLACK = 1e-9
GROUP_GAP = 0.5  # of the size: white before a group of lines, for the rule in it
_WRITING_MM = 30.0  # wanted length of a rule to write on


class Setting(Struct, frozen=True):
    """How a style is set: `ratio` is its size beside plain text, `line` its row's height beside
    its size, `rise` the baseline's depth in the row. A style that `wraps` breaks at any size,
    others into at most `folds` rows and only where one row would be much smaller than wanted.
    """

    face: Face
    ratio: float
    smallest_pt: float
    wraps: bool
    line: float = 1.2
    rise: float = 0.93
    writing: bool = False
    folds: int = 1


class Item(Struct, frozen=True):
    """A line to set; `edges[n]` is the width of the first n characters, in units of the size."""

    text: str
    key: str
    style: Style | None
    face: Face
    setting: Setting
    needed: bool
    edges: tuple[float, ...]
    longest_word: float
    group: int
    ellipsis_width: float

    def size(self, base_pt: float) -> float:
        """The wanted size beside plain text of `base_pt`."""
        return max(self.setting.smallest_pt, self.setting.ratio * base_pt)

    def text_room(self, room_mm: float) -> float:
        """The part of a row's width that is for text; the rest is for writing on."""
        writing = min(_WRITING_MM, room_mm * 0.45) if self.setting.writing else 0.0
        return room_mm - writing

    def reach(self, start: int, width: float) -> int:
        """The end of the longest run from `start` that is no wider than `width`."""
        return bisect_right(self.edges, self.edges[start] + width + SLACK) - 1


class Piece(Struct, frozen=True):
    """A set row of an item: characters `start` to `end`, then the mark of what was left out."""

    item: int
    start: int
    end: int
    mark: str
    size_pt: float
    top_mm: float
    height_mm: float
    room_mm: float


class Column(Struct, frozen=True):
    """The area of a label and the square in it that must stay free at its right side."""

    area: Box
    free: Box | None

    def room_mm(self, top_mm: float, height_mm: float) -> float:
        """The width of a row at a height."""
        free = self.free
        if free and top_mm < free.bottom_mm and top_mm + height_mm > free.y_mm:
            return free.x_mm - self.area.x_mm
        return self.area.width_mm
