"""Lines set one below the other around a QR, broken between words, each row within its column.

Sizes are in points, positions in millimetres. Texts are in reading order here.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from warmside.plugins.labels.typesetting.wording import ELLIPSIS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from warmside.plugins.labels.content.label import Style
    from warmside.plugins.labels.paper.stock import Box
    from warmside.plugins.labels.typesetting.fonts import Face

POINT_MM = 25.4 / 72
_WRITING_MM = 30.0  # wanted length of a rule to write on
_SLACK = 1e-9
SMALLEST_PT = 6.0  # the stated minimum; an x-height of 1.15 mm in this face
OMITTED = f" {ELLIPSIS}"


@dataclass(frozen=True, slots=True)
class Setting:
    """How a style is set: `ratio` is its size beside plain text, `line` its row's height beside
    its size, `rise` the baseline's depth in the row. A style that `wraps` breaks at any size,
    others into at most `folds` rows and only at the smallest.
    """

    face: Face
    ratio: float
    smallest_pt: float
    wraps: bool
    line: float = 1.2
    rise: float = 0.93
    writing: bool = False
    folds: int = 1


@dataclass(frozen=True, slots=True)
class Item:
    """A line to set; `edges[n]` is the width of the first n characters, in units of the size."""

    text: str
    key: str
    style: Style | None
    face: Face
    setting: Setting
    needed: bool
    edges: tuple[float, ...]
    longest_word: float
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
        return bisect_right(self.edges, self.edges[start] + width + _SLACK) - 1


@dataclass(frozen=True, slots=True)
class Piece:
    """A set row of an item: characters `start` to `end`, then the mark of what was left out."""

    item: int
    start: int
    end: int
    mark: str
    size_pt: float
    top_mm: float
    height_mm: float
    room_mm: float


@dataclass(frozen=True, slots=True)
class Column:
    """The area of a label and the square in it that must stay free at its right side."""

    area: Box
    free: Box | None

    def room_mm(self, top_mm: float, height_mm: float) -> float:
        """The width of a row at a height."""
        free = self.free
        if free and top_mm < free.bottom_mm and top_mm + height_mm > free.y_mm:
            return free.x_mm - self.area.x_mm
        return self.area.width_mm


def flow(
    items: Sequence[Item],
    column: Column,
    base_pt: float,
    caps: Mapping[int, int],
    gap_mm: float = 0.0,
) -> list[Piece]:
    """All items set at a base size; `caps` limits the rows of some. May run below the area."""
    pieces: list[Piece] = []
    top = column.area.y_mm
    for n, item in enumerate(items):
        if item.setting.wraps:
            size, most = _whole_words(item, column, top, base_pt), caps.get(n, len(item.text))
            rows = _wrapped(n, item, column, top, size, most)
        else:
            rows = _single(n, item, column, top, base_pt, caps.get(n, item.setting.folds))
        pieces += rows
        top = rows[-1].top_mm + rows[-1].height_mm + gap_mm
    return pieces


def _whole_words(item: Item, column: Column, top: float, base_pt: float) -> float:
    """The wanted size, or a smaller one at which no word need be broken."""
    wanted = item.size(base_pt)
    rows = item.text.count(" ") + 1
    room = column.room_mm(top, rows * wanted * item.setting.line * POINT_MM)
    return min(wanted, max(SMALLEST_PT, room / (item.longest_word * POINT_MM)))


def _single(
    n: int, item: Item, column: Column, top: float, base_pt: float, folds: int
) -> list[Piece]:
    """One row, shrunk to its room; where the smallest size is too wide, folded, else cut."""
    size, full = _widest(item, column, top, base_pt)
    room = item.text_room(full)
    height = size * item.setting.line * POINT_MM
    end, cut = len(item.text), item.edges[-1] * size * POINT_MM > room + _SLACK
    if cut and folds > 1:
        return _wrapped(n, item, column, top, size, folds)
    if cut:
        end = _shortened(item, 0, room / (size * POINT_MM))
    return [Piece(n, 0, end, ELLIPSIS * cut, size, top, height, full)]


def _widest(item: Item, column: Column, top: float, base_pt: float) -> tuple[float, float]:
    """The largest size at which the item is one row here, and the width of that row in mm.

    A row low enough to end above the free square has the whole width.
    """
    wanted, least = item.size(base_pt), item.setting.smallest_pt
    line, width = item.setting.line * POINT_MM, item.edges[-1] * POINT_MM
    room = column.room_mm(top, wanted * line)
    size = min(wanted, max(least, item.text_room(room) / width))
    if column.free and top < column.free.y_mm:
        whole = column.area.width_mm
        low = min(wanted, item.text_room(whole) / width, (column.free.y_mm - top) / line)
        if low > max(size, least):
            return low, whole
    return size, room


def _wrapped(n: int, item: Item, column: Column, top: float, size: float, most: int) -> list[Piece]:
    height = size * item.setting.line * POINT_MM
    rows: list[Piece] = []
    start = 0
    while start < len(item.text) and len(rows) < most:
        room = column.room_mm(top, height)
        width = room / (size * POINT_MM)
        end = _break(item, start, width)
        cut = end < len(item.text) and len(rows) + 1 == most
        if cut:
            end = _shortened(item, start, width)
        rows.append(Piece(n, start, end, ELLIPSIS * cut, size, top, height, room))
        top += height
        start = end + (end < len(item.text) and item.text[end] == " ")
    return rows


def _break(item: Item, start: int, width: float) -> int:
    """The end of a row: at a space where there is one, else within the word."""
    end = item.reach(start, width)
    if end >= len(item.text) or item.text[end] == " ":
        return min(end, len(item.text))
    space = item.text.rfind(" ", start, end)
    return space if space > start else max(end, start + 1)


def _shortened(item: Item, start: int, width: float) -> int:
    """The end of a run that leaves room for the mark of omission."""
    return max(start, item.reach(start, width - item.ellipsis_width))


def shown(item: Item, piece: Piece) -> str:
    """The characters of a piece in reading order, with the mark where it was cut."""
    text = item.text[piece.start : piece.end]
    return text.rstrip() + piece.mark if piece.mark else text


def omitted(item: Item, piece: Piece, shorten: bool) -> Piece | None:
    """A piece with the mark for left out lines after it; None where it would have to be cut."""
    room = item.text_room(piece.room_mm)
    space = item.ellipsis_width * 1.4  # the mark stands apart
    end = max(piece.start, item.reach(piece.start, room / (piece.size_pt * POINT_MM) - space))
    if end < piece.end and not shorten:
        return None
    return replace(piece, end=min(piece.end, end), mark=OMITTED)
