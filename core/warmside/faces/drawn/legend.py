"""The legend of a drawing: samples with their titles, side by side, as many rows as it takes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from warmside.faces.drawn.strokes import NORMAL, TITLE, Sheet
from warmside.faces.paper.page_fonts import BOLD, width

Sample = Callable[[Sheet, float, float], None]
Entry = tuple[str, Sample]
"""A title and what draws its sample between x and x + SAMPLE, at the middle height y."""

SAMPLE = 22.0
_AFTER_SAMPLE, _BETWEEN, _ROW = 4.0, 16.0, 12.0


def heading(sheet: Sheet, title: str, y: float) -> float:
    """The title in as many lines as it takes; the y below it."""
    for line in sheet.type.lines(title, TITLE, sheet.width, BOLD):
        y += TITLE + 2
        sheet.words((0, y), line, TITLE, BOLD)
    return y + 4


def legend(sheet: Sheet, entries: Sequence[Entry], y: float) -> float:
    """The entries below y; the y below them."""
    if not entries:
        return y
    x = 0.0
    for title, sample in entries:
        text = sheet.type.line(title, NORMAL, sheet.width - SAMPLE - _AFTER_SAMPLE)
        breadth = SAMPLE + _AFTER_SAMPLE + width(text, NORMAL)
        if x and x + breadth > sheet.width:
            x, y = 0.0, y + _ROW
        sample(sheet, x, y + _ROW / 2)
        sheet.words((x + SAMPLE + _AFTER_SAMPLE, y + _ROW / 2 + 3), text, NORMAL)
        x += breadth + _BETWEEN
    return y + _ROW


def sign_sample(sign: str) -> Sample:
    """A sample that shows a sign."""
    return lambda sheet, x, y: sheet.centred(
        (x + SAMPLE / 2, y + 3), sheet.type.line(sign, NORMAL, SAMPLE), NORMAL, BOLD
    )
