"""The typefaces of labels: which characters they hold and how wide these are."""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import font_path

if TYPE_CHECKING:
    from collections.abc import Mapping

LAST_DRAWABLE = 0xFFFF  # ReportLab's text extraction table holds four hex digits a character


class Face(StrEnum):
    """A typeface; the value is the name of its file in core's fonts."""

    REGULAR = "regular"
    BOLD = "bold"
    OBLIQUE = "oblique"


class Metrics(Struct, frozen=True):
    """A face as registered with ReportLab: its name there and widths in 1/1000 of the size."""

    name: str
    widths: Mapping[int, float]
    fallback: float

    def holds(self, character: str) -> bool:
        """Whether the face has a glyph for a character."""
        return ord(character) in self.widths and ord(character) <= LAST_DRAWABLE

    def advances(self, text: str) -> list[float]:
        """The width of each character, in units of the size."""
        return [self.widths.get(ord(c), self.fallback) / 1000.0 for c in text]

    def width(self, text: str) -> float:
        """The width of a text, in units of the size."""
        return sum(self.advances(text))


@cache
def metrics(face: Face) -> Metrics:
    """A face's widths; registers it with ReportLab at the first use."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name = f"warmside-{face.value}"
    font = TTFont(name, str(font_path(face.value)))
    pdfmetrics.registerFont(font)
    widths = {code: font.face.charWidths[code] for code in font.face.charToGlyph}
    return Metrics(name, widths, font.face.defaultWidth)
