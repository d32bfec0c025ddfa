"""The largest sizes at which all items fit their column, and the sizes that labels share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.labels.content.label import LabelKind, Style
from warmside.plugins.labels.typesetting.flow import flow
from warmside.plugins.labels.typesetting.rows import POINT_MM, SMALLEST_PT, Column, Item, Piece
from warmside.plugins.labels.typesetting.shortening import fits, shortened

_BASE_PT = (8.0, 22.0)  # the largest base size, on the lowest and the highest label
_BASE_PER_MM = (0.2, 0.36)  # of the width and of the height
_GAPS = (0.6, 0.4, 0.2, 0.0)  # white between lines beside the base size, where there is room
_NAMES = ((2.2, 2.4), (1.9, 2.4), (1.6, 2.4))  # of the name and of large words, beside plain text
_SIGNS = ((1.6, 2.4), (1.5, 2.0), (1.4, 1.7), (1.3, 1.34))  # of the code and of large words
_GOOD_PT = 8.0  # plain text of this size reads well; a name that asks for less shrinks by itself
_STEPS = 6  # of halving between the smallest and the largest base size


class Sizes(Struct, frozen=True):
    """Sizes of a label: plain text in points, what leads it and its large words beside that, and
    the white between lines.
    """

    leading: float
    large: float
    base_pt: float
    gap: float = 0.0

    def sized(self, items: Sequence[Item], kind: LabelKind) -> list[Item]:
        """The items with these ratios: a name leads a label, the code where there is no name."""
        wanted = {None: self.leading, Style.LARGE: self.large}
        if not kind.is_sign:
            wanted[Style.NAME] = self.leading
        return [
            replace(item, setting=replace(item.setting, ratio=wanted[item.style]))
            if item.style in wanted
            else item
            for item in items
        ]

    def pieces(self, sized: Sequence[Item], column: Column) -> list[Piece]:
        """The items set at these sizes; they may run below the column."""
        return flow(sized, column, self.base_pt, {}, self.gap * self.base_pt * POINT_MM)


def shared(sizes: Iterable[Sizes | None]) -> Sizes | None:
    """The sizes at which each of several labels fits: the least of each; None where there is none.

    Labels that had to be shortened have no say.
    """
    known = [s for s in sizes if s]
    if not known:
        return None
    return Sizes(
        min(s.leading for s in known),
        min(s.large for s in known),
        min(s.base_pt for s in known),
        min(s.gap for s in known),
    )


def settled(
    items: Sequence[Item], column: Column, kind: LabelKind, given: Sizes | None = None
) -> tuple[Sequence[Item], list[Piece], list[str], Sizes | None]:
    """The items kept, their pieces, the keys of those left out, and the sizes.

    With `given` sizes these are taken where all fits. No sizes are told of a shortened label.
    """
    sizes = given if given and _holds(given, items, column, kind) else _own(items, column, kind)
    if sizes:
        sized = sizes.sized(items, kind)
        return sized, sizes.pieces(sized, column), [], sizes
    last = Sizes(*(_SIGNS if kind.is_sign else _NAMES)[-1], SMALLEST_PT)
    return *shortened(last.sized(items, kind), column), None


def _own(items: Sequence[Item], column: Column, kind: LabelKind) -> Sizes | None:
    """The largest sizes at which a label fits by itself; None where it must be shortened."""
    if kind.is_sign:
        tries = (_largest(items, column, kind, pair, _holds) for pair in _SIGNS)
        return next((s for s in tries if s), None)
    whole = [s for pair in _NAMES if (s := _largest(items, column, kind, pair, _holds_whole))]
    best = max(whole, key=lambda s: (min(s.base_pt, _GOOD_PT), s.leading), default=None)
    shrunk = _largest(items, column, kind, _NAMES[-1], _holds)
    if best and (best.base_pt >= _GOOD_PT or not shrunk or shrunk.base_pt <= best.base_pt):
        return best
    return shrunk


Holds = Callable[[Sizes, Sequence[Item], Column, LabelKind], bool]


def _holds(sizes: Sizes, items: Sequence[Item], column: Column, kind: LabelKind) -> bool:
    return fits(sizes.pieces(sizes.sized(items, kind), column), column)


def _holds_whole(sizes: Sizes, items: Sequence[Item], column: Column, kind: LabelKind) -> bool:
    """Whether all fits with no name or code made smaller than the others'."""
    sized = sizes.sized(items, kind)
    pieces = sizes.pieces(sized, column)
    leading = (p for p in pieces if sized[p.item].style in (None, Style.NAME))
    return fits(pieces, column) and all(
        p.size_pt >= sized[p.item].size(sizes.base_pt) for p in leading
    )


def _largest(
    items: Sequence[Item],
    column: Column,
    kind: LabelKind,
    ratios: tuple[float, float],
    holds: Holds,
) -> Sizes | None:
    """The largest base size that holds, found by halving, then the most white between lines."""
    low, high = SMALLEST_PT, _highest(column)
    if not holds(Sizes(*ratios, low), items, column, kind):
        return None
    size = high
    for _ in range(_STEPS):
        if holds(Sizes(*ratios, size), items, column, kind):
            low = size
        else:
            high = size
        if low >= high:
            break
        size = (low + high) / 2
    aired = (Sizes(*ratios, low, gap) for gap in _GAPS)
    return next(s for s in aired if s.gap == 0.0 or holds(s, items, column, kind))


def _highest(column: Column) -> float:
    """The largest plain text that a label of this size has."""
    size = min(column.area.width_mm * _BASE_PER_MM[0], column.area.height_mm * _BASE_PER_MM[1])
    return min(max(size, _BASE_PT[0]), _BASE_PT[1])
