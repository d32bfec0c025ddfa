"""The typefaces of pages and drawings, and what to do with signs that they lack."""

from __future__ import annotations

from functools import cache

from msgspec import Struct, field
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from warmside.faces.fonts import font_path
from warmside.faces.terminal.visible import visible

REGULAR = "DejaVu Sans"
BOLD = "DejaVu Sans Bold"
OBLIQUE = "DejaVu Sans Oblique"
MONO = "DejaVu Sans Mono"
MONO_WIDTH = 0.602  # of the size: 1233 of 2048 units, all signs of the face alike

LACKING = "▯"
_FILES = {REGULAR: "regular", BOLD: "bold", OBLIQUE: "oblique", MONO: "mono"}
_UNSEEN = {"\u200c", "\u200d", "\ufe0e", "\ufe0f", "\n"}


@cache
def register_fonts() -> None:
    """Make the faces known to ReportLab; they are embedded as subsets."""
    for name, file in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, str(font_path(file))))


class Type(Struct):
    """Sets text safely; remembers which signs the faces lack.

    With `fallback` such signs are left in, for a viewer that has other fonts at hand.
    """

    fallback: bool = False
    lacking: dict[str, None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        register_fonts()

    def set(self, text: str, font: str = REGULAR) -> str:
        """The text with nothing in it that the face cannot show."""
        text = visible(text)
        if self.fallback or text.isascii():
            return text
        known = pdfmetrics.getFont(font).face.charToGlyph
        return "".join(c if ord(c) in known else self._stand_in(c) for c in text)

    def lines(self, text: str, size: float, room: float, font: str = REGULAR) -> list[str]:
        """The text broken to lines no wider than `room` points, longer words shortened."""
        broken = simpleSplit(self.set(text, font), font, size, room)
        return [self._shorten(line, size, room, font) for line in broken]

    def line(self, text: str, size: float, room: float, font: str = REGULAR) -> str:
        """The text on one line of at most `room` points, shortened if need be."""
        return self._shorten(self.set(text, font).replace("\n", " "), size, room, font)

    def warnings(self) -> tuple[str, ...]:
        """What the keeper should know of signs that could not be shown."""
        if not self.lacking:
            return ()
        signs = ", ".join(f"U+{ord(char):04X}" for char in sorted(self.lacking))
        return (f"the page font lacks {signs}; shown as {LACKING}",)

    def _stand_in(self, char: str) -> str:
        if char in _UNSEEN:
            return char if char == "\n" else ""
        self.lacking[char] = None
        return LACKING

    def _shorten(self, text: str, size: float, room: float, font: str) -> str:
        if width(text, size, font) <= room:
            return text
        while text and width(text + "…", size, font) > room:
            text = text[:-1]
        return text + "…"


def width(text: str, size: float, font: str = REGULAR) -> float:
    """The breadth of set text in points."""
    return float(pdfmetrics.stringWidth(text, font, size))
