"""Pictures on a page: three side by side, the words below each; a lone one is larger."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reportlab.lib.utils import ImageReader
from reportlab.platypus import Flowable, Image, Spacer
from reportlab.platypus import Table as Grid

from warmside.core.answers.strips import Shot, Strip
from warmside.core.pictures.page_count import pages_of
from warmside.core.values.counts import counted, size_words
from warmside.faces.look import Look
from warmside.faces.paper import page_styles as styles
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.page_styles import paragraph
from warmside.faces.paper.page_tables import ROOM

_ACROSS, _SMALL_ACROSS = 3, 5
_GAP = 8.0
_HIGHEST, _SMALL_HIGHEST = 170.0, 80.0
_ALL = ((0, 0), (-1, -1), 0.5, "black")
MISSING = "its file is missing here"
_LONE = 200.0  # points, for the longer side of a picture that stands alone


def page_strip(strip: Strip, look: Look, kind: Type) -> Iterator[Flowable]:
    """The title, then rows of pictures."""
    if strip.title:
        yield paragraph(strip.title, styles.CAPTION, kind)
    across, wide, high = _sizes(strip)
    for start in range(0, len(strip.shots), across):
        shots = strip.shots[start : start + across]
        cells = [_cell(shot, strip.small, look, kind, (wide, high)) for shot in shots]
        yield Grid(
            [cells],
            colWidths=[wide + _GAP] * len(cells),
            hAlign="LEFT",
            spaceBefore=2,
            spaceAfter=6,
            style=[
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), _GAP),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
            ],
        )


def _sizes(strip: Strip) -> tuple[int, float, float]:
    """How many stand side by side, and the points that each may be wide and high."""
    if strip.small:
        return _SMALL_ACROSS, ROOM / _SMALL_ACROSS - _GAP, _SMALL_HIGHEST
    if len(strip.shots) == 1:
        return 1, _LONE, _LONE
    return _ACROSS, ROOM / _ACROSS - _GAP, _HIGHEST


def _cell(
    shot: Shot, small: bool, look: Look, kind: Type, most: tuple[float, float]
) -> list[Flowable]:
    """The picture above its words; of a small one the number is left out, nobody asks for it."""
    if shot.kind == "pdf":
        return [_card(shot, look, kind, most[0])]
    image = _image(shot, look.pictures, *most)
    shown = [image, Spacer(1, 3)] if image else [paragraph(MISSING, styles.BASIS, kind)]
    said = shot.words if small else (shot.called, *shot.words)
    return [*shown, *(paragraph(words, styles.BASIS, kind) for words in said)]


def _card(shot: Shot, look: Look, kind: Type, wide: float) -> Grid:
    """A paper in a frame: that it is a PDF, its pages as far as they can be told, its words."""
    title = (shot.called, *shot.words)
    said = [paragraph(words, styles.BASIS, kind) for words in (*title, _paper(shot, look.pictures))]
    return Grid([[said]], colWidths=[min(wide, ROOM / _ACROSS - _GAP)], style=[("BOX", *_ALL)])


def _paper(shot: Shot, places: tuple[Path, ...]) -> str:
    """`PDF, 3 pages, 120 kB`."""
    size = size_words(shot.size_bytes)
    for path in (place / f"{shot.digest}.pdf" for place in places):
        try:
            pages = pages_of(path.read_bytes())
        except OSError:
            continue
        return f"PDF, {counted(pages, 'page')}, {size}" if pages else f"PDF, {size}"
    return f"PDF, {size}; {MISSING}"


def _image(shot: Shot, places: tuple[Path, ...], wide: float, high: float) -> Image | None:
    """The preview, else the picture; None where there is none that can be read."""
    names = (f"{shot.digest}.small.jpg", f"{shot.digest}.{shot.kind}")
    for path in (place / name for name in names for place in places):
        try:
            across, down = ImageReader(str(path)).getSize()
        except (OSError, ValueError):
            continue
        share = min(wide / across, high / down)
        return Image(str(path), across * share, down * share, hAlign="LEFT")
    return None
