"""What a label gives up where its lines have no room even at the smallest size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from warmside.plugins.labels.content.label import Style
from warmside.plugins.labels.typesetting.flow import flow, omitted
from warmside.plugins.labels.typesetting.rows import SMALLEST_PT, Column, Item, Piece

_SLACK_MM = 1e-6


def fits(pieces: Sequence[Piece], column: Column) -> bool:
    """Whether no piece runs below the column."""
    end = pieces[-1].top_mm + pieces[-1].height_mm if pieces else 0.0
    return end <= column.area.bottom_mm + _SLACK_MM


def shortened(items: list[Item], column: Column) -> tuple[Sequence[Item], list[Piece], list[str]]:
    """Rows taken from the longest plain texts first, then whole lines from the end.

    A caution is never cut in its middle while there is another one to leave out.
    """
    lost: list[str] = []
    while True:
        pieces = _capped(items, column)
        if fits(pieces, column) or len(items) == 1:
            return items, pieces, lost[::-1]
        lost.append(items.pop(_least(items)).key)


def _capped(items: Sequence[Item], column: Column) -> list[Piece]:
    """The pieces at the smallest size, with as many rows of each text as there is room for."""
    guarded = {n for n, item in enumerate(items) if item.style in (Style.CAUTION, Style.LARGE)}
    cautions = [n for n in guarded if items[n].style is Style.CAUTION]
    if len(cautions) == 1:
        guarded -= set(cautions)
    caps: dict[int, int] = {}
    while True:
        pieces = flow(items, column, SMALLEST_PT, caps)
        counts = {n: rows for n, rows in _rows_of(pieces).items() if n not in guarded}
        longest = max(counts, key=lambda n: counts[n], default=-1)
        if fits(pieces, column) or longest < 0 or counts[longest] == 1:
            return pieces
        caps[longest] = counts[longest] - 1


def _rows_of(pieces: Sequence[Piece]) -> Counter[int]:
    return Counter(piece.item for piece in pieces)


def _least(items: Sequence[Item]) -> int:
    """The item that a label can best do without; among equals the last."""
    worth = {Style.CAUTION: 2, Style.LARGE: 3, None: 4}
    return min(
        range(len(items)),
        key=lambda n: (worth.get(items[n].style, int(items[n].needed)), -n),
    )


def marked(items: Sequence[Item], pieces: list[Piece]) -> list[Piece]:
    """The pieces with a mark after the last line that can bear it, where lines were left out."""
    ends = [n for n, p in enumerate(pieces) if p.end == len(items[p.item].text) and not p.mark]
    lines = [n for n in reversed(ends) if items[pieces[n].item].style]
    whole = ((n, omitted(items[pieces[n].item], pieces[n], shorten=False)) for n in lines)
    cut = (
        (n, omitted(items[pieces[n].item], pieces[n], shorten=True))
        for n in lines
        if items[pieces[n].item].style not in (Style.CAUTION, Style.LARGE)
    )
    for n, marked in (*whole, *cut):
        if marked:
            return [*pieces[:n], marked, *pieces[n + 1 :]]
    return pieces
