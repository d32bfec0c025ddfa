"""Pictures on a page: three side by side, the words below each; a lone one is larger."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reportlab.lib.utils import ImageReader
from reportlab.platypus import Flowable, Image, Spacer
from reportlab.platypus import Table as Grid

from warmside.core.answers.strips import Shot, Strip
from warmside.faces.look import Look
from warmside.faces.paper import page_styles as styles
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.page_styles import paragraph
from warmside.faces.paper.page_tables import ROOM

_ACROSS = 3
_GAP = 8.0
_HIGHEST = 170.0
_LONE = 200.0  # points, for the longer side of a picture that stands alone


def page_strip(strip: Strip, look: Look, kind: Type) -> Iterator[Flowable]:
    """The title, then rows of pictures."""
    if strip.title:
        yield paragraph(strip.title, styles.CAPTION, kind)
    across = 1 if len(strip.shots) == 1 else _ACROSS
    wide = _LONE if across == 1 else (ROOM - _GAP * (_ACROSS - 1)) / _ACROSS
    high = _LONE if across == 1 else _HIGHEST
    for start in range(0, len(strip.shots), across):
        shots = strip.shots[start : start + across]
        cells = [_cell(shot, look, kind, wide, high) for shot in shots]
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


def _cell(shot: Shot, look: Look, kind: Type, wide: float, high: float) -> list[Flowable]:
    image = _image(shot, look.pictures, wide, high)
    shown = [image, Spacer(1, 3)] if image else [paragraph(_unseen(shot), styles.BASIS, kind)]
    return [*shown, *(paragraph(words, styles.BASIS, kind) for words in (shot.called, *shot.words))]


def _unseen(shot: Shot) -> str:
    if shot.kind == "pdf":
        return "a paper of its own, kept as PDF"
    return "its file is missing here"


def _image(shot: Shot, places: tuple[Path, ...], wide: float, high: float) -> Image | None:
    """The preview, else the picture; None where there is none that can be read."""
    if shot.kind == "pdf":
        return None
    names = (f"{shot.digest}.small.jpg", f"{shot.digest}.{shot.kind}")
    for path in (place / name for name in names for place in places):
        try:
            across, down = ImageReader(str(path)).getSize()
        except (OSError, ValueError):
            continue
        share = min(wide / across, high / down)
        return Image(str(path), across * share, down * share, hAlign="LEFT")
    return None
