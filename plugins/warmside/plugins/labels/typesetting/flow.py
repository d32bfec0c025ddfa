"""Lines set one below the other around a QR, broken between words, each row within its column."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf

from msgspec.structs import replace

from warmside.plugins.labels.typesetting.rows import (
    GROUP_GAP,
    POINT_MM,
    SLACK,
    SMALLEST_PT,
    Column,
    Item,
    Piece,
)
from warmside.plugins.labels.typesetting.wording import ELLIPSIS

OMITTED = f" {ELLIPSIS}"
_TOO_SMALL = 0.75  # of the wanted size: a row that would be smaller is broken between words


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
        if n and item.group > items[n - 1].group:
            top += GROUP_GAP * item.size(base_pt) * POINT_MM
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
    """One row, shrunk to its room; where it would be much too small, or is too wide at the
    smallest size, folded, else cut.

    A shrunk row keeps its height, so that what follows stands where it does on other labels.
    """
    size, full = _widest(item, column, top, base_pt)
    if folds > 1 and size < _TOO_SMALL * item.size(base_pt):
        halves = _of_halves(item, column, top, item.size(base_pt))
        if halves > size:
            wanted = item.size(base_pt) * item.setting.line * POINT_MM
            return _on_the_first_line(_wrapped(n, item, column, top, halves, folds), wanted)
    room = item.text_room(full)
    height = max(size, item.size(base_pt)) * item.setting.line * POINT_MM
    end, cut = len(item.text), item.edges[-1] * size * POINT_MM > room + SLACK
    if cut and folds > 1:
        return _wrapped(n, item, column, top, size, folds)
    if cut:
        end = _shortened(item, 0, room / (size * POINT_MM))
    return [Piece(n, 0, end, ELLIPSIS * cut, size, top, height, full)]


def _widest(item: Item, column: Column, top: float, base_pt: float) -> tuple[float, float]:
    """The largest size at which the item is one row here, and the width of that row in mm."""
    wanted, least = item.size(base_pt), item.setting.smallest_pt
    line, width = item.setting.line * POINT_MM, item.edges[-1] * POINT_MM
    room = column.room_mm(top, wanted * line)
    return min(wanted, max(least, item.text_room(room) / width)), room


def _of_halves(item: Item, column: Column, top: float, wanted: float) -> float:
    """The largest size at which the item is two rows of whole words; 0 where it is one word."""
    ends = (n for n, character in enumerate(item.text) if character == " ")
    edges = item.edges
    widths = (max(edges[end], edges[-1] - edges[end + 1]) for end in ends)
    room = column.room_mm(top, 2 * wanted * item.setting.line * POINT_MM)
    return min(wanted, room / (min(widths, default=inf) * POINT_MM))


def _on_the_first_line(rows: list[Piece], height: float) -> list[Piece]:
    """The rows with the first as high as on other labels, so that they stand on one line."""
    first, *others = rows
    lower = height - first.height_mm
    moved = [replace(row, top_mm=row.top_mm + lower) for row in others]
    return [replace(first, height_mm=height), *moved]


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
