"""Lines drawn in braille signs: two dots across and four down in each terminal cell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

_BLANK = 0x2800
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))  # Unicode block U+2800, by row

Dot = tuple[int, int]
Pattern = tuple[int, int]  # dots on, dots off

SOLID: Pattern = (1, 0)
DASHED: Pattern = (4, 3)
DOTTED: Pattern = (1, 2)


def stroke(corners: Iterable[Dot], pattern: Pattern) -> Iterator[Dot]:
    """The dots of a broken line through these dots, drawn in a pattern of on and off."""
    on, off = pattern
    for count, dot in enumerate(_path(corners)):
        if count % (on + off) < on:
            yield dot


def cells(dots: Iterable[Dot]) -> dict[tuple[int, int], str]:
    """Braille signs by column and row, the row counted from the top as the dots are."""
    bits: dict[tuple[int, int], int] = {}
    for x, y in dots:
        cell = (x // 2, y // 4)
        bits[cell] = bits.get(cell, 0) | _BITS[y % 4][x % 2]
    return {cell: chr(_BLANK + mask) for cell, mask in bits.items()}


def _path(corners: Iterable[Dot]) -> Iterator[Dot]:
    last: Dot | None = None
    for corner in corners:
        if last is None:
            yield corner
        else:
            yield from _segment(last, corner)
        last = corner


def _segment(start: Dot, end: Dot) -> Iterator[Dot]:
    """Dots after `start` up to `end`, one for each step along the longer side."""
    steps = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
    for step in range(1, steps + 1):
        x = start[0] + (end[0] - start[0]) * step / steps
        y = start[1] + (end[1] - start[1]) * step / steps
        yield round(x), round(y)
