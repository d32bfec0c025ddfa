"""The largest sizes at which all items fit their column."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from warmside.plugins.labels.content.label import LabelKind, Style
from warmside.plugins.labels.typesetting.flow import flow
from warmside.plugins.labels.typesetting.rows import POINT_MM, SMALLEST_PT, Column, Item, Piece
from warmside.plugins.labels.typesetting.shortening import fits, shortened

_BASE_PT = (8.0, 22.0)  # the largest base size, on the lowest and the highest label
_BASE_PER_MM = (0.2, 0.36)  # of the width and of the height
_GAPS = (0.6, 0.4, 0.2)  # white between lines beside the base size, where there is room for it
_CODE_RATIOS = (4.0, 3.5, 3.0, 2.5, 2.0)
_RATIOS = {  # of code and large words, tried in turn; an enclosure's code comes before all else
    LabelKind.ENCLOSURE: tuple((ratio, 2.4) for ratio in _CODE_RATIOS[:4]),
    LabelKind.ANIMAL: tuple((ratio, 2.4) for ratio in _CODE_RATIOS),
    LabelKind.SITTER: tuple((ratio, 2.4) for ratio in _CODE_RATIOS),
    LabelKind.DOOR: ((1.6, 2.4), (1.5, 2.0), (1.4, 1.7), (1.3, 1.34)),
    LabelKind.HAZARD: ((1.6, 2.4), (1.5, 2.0), (1.4, 1.7), (1.3, 1.34)),
}
_STEPS = 6  # of halving between the smallest and the largest base size


def settled(
    items: Sequence[Item], column: Column, kind: LabelKind
) -> tuple[Sequence[Item], list[Piece], list[str]]:
    """The items kept, their pieces, and the keys of those left out."""
    for pair in _RATIOS[kind]:
        sized = _with_ratios(items, pair)
        pieces = flow(sized, column, SMALLEST_PT, {})
        if fits(pieces, column):
            return sized, _largest(sized, column, pieces), []
    return shortened(_with_ratios(items, _RATIOS[kind][-1]), column)


def _with_ratios(items: Sequence[Item], pair: tuple[float, float]) -> list[Item]:
    wanted = dict(zip((None, Style.LARGE), pair, strict=True))
    return [
        replace(item, setting=replace(item.setting, ratio=wanted[item.style]))
        if item.style in wanted
        else item
        for item in items
    ]


def _largest(items: Sequence[Item], column: Column, best: list[Piece]) -> list[Piece]:
    """The pieces at the largest base size that fits, found by halving; `best` is the smallest."""
    fitting = SMALLEST_PT
    wide, tall = (column.area.width_mm, column.area.height_mm)
    size = min(wide * _BASE_PER_MM[0], tall * _BASE_PER_MM[1])
    size = high = min(max(size, _BASE_PT[0]), _BASE_PT[1])
    for _ in range(_STEPS):
        pieces = flow(items, column, size, {})
        if fits(pieces, column):
            fitting, best = size, pieces
        else:
            high = size
        if fitting >= high:
            break
        size = (fitting + high) / 2
    return _aired(items, column, fitting, best)


def _aired(
    items: Sequence[Item], column: Column, base_pt: float, tight: list[Piece]
) -> list[Piece]:
    """The pieces with white between the lines, as far as the label has room for it."""
    for gap in _GAPS:
        pieces = flow(items, column, base_pt, {}, gap * base_pt * POINT_MM)
        if fits(pieces, column):
            return pieces
    return tight
