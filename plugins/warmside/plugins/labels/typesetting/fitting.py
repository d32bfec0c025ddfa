"""Text fitted into a label: shrunk to a stated minimum, then shortened with a visible mark.

No text is markup: every character is drawn as itself. Sizes are in points, positions in
millimetres from the top left of the page.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from warmside.api import BadInput, quoted
from warmside.plugins.labels.content.label import Label, Style
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.flow import shown
from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.items import CODE_KEY, items_of
from warmside.plugins.labels.typesetting.rows import POINT_MM, Column, Item, Piece
from warmside.plugins.labels.typesetting.script import visual_order
from warmside.plugins.labels.typesetting.shortening import marked
from warmside.plugins.labels.typesetting.sizing import settled

CAP_HEIGHT = 0.729  # of the size, in the bold face


class Row(Struct, frozen=True):
    """One drawn row; `text` is in visual order, `box` holds it with accents and tails.

    `room_to_mm` is where the row's room ends at the right.
    """

    text: str
    key: str
    style: Style | None
    face: Face
    size_pt: float
    box: Box
    baseline_mm: float
    room_to_mm: float


class Fitted(Struct, frozen=True):
    """The rows of a label, what its reader must be told, and how many lines lost something."""

    rows: tuple[Row, ...]
    warnings: tuple[str, ...]
    losses: int
    code_pt: float


def fit(label: Label, area: Box, free: Box | None) -> Fitted:
    """The label's code and lines set within `area`, clear of the square `free` at its right."""
    items, warnings = items_of(label)
    column = Column(area, free)
    kept, pieces, lost = settled(items, column, label.kind)
    if lost and not any(p.mark for p in pieces):  # what is left may be set larger again
        kept, pieces, _ = settled(kept, column, label.kind)
    cut = dict.fromkeys(kept[p.item].key for p in pieces if p.mark)
    pieces = marked(kept, pieces) if lost else pieces
    name = quoted(label.code_text)
    if cut:
        warnings.append(f"label {name}: shortened to fit: {', '.join(cut)}")
    if lost:
        warnings.append(
            f"label {name}: left out for want of room: {', '.join(dict.fromkeys(lost))}"
        )
    rows = tuple(_row(kept[p.item], p, area) for p in pieces)
    code_pt = next((row.size_pt for row in rows if row.key == CODE_KEY), 0.0)
    _refuse_mute_sign(label, lost)
    return Fitted(rows, tuple(warnings), len(cut) + len(lost), code_pt)


def _refuse_mute_sign(label: Label, lost: Sequence[str]) -> None:
    large = {line.key for line in label.lines if line.style is Style.LARGE}
    if large & set(lost):
        raise BadInput(
            f"the {label.kind} sign {quoted(label.code_text)} has no room for its large words;"
            " take a larger stock or fewer words"
        )


def _row(item: Item, piece: Piece, area: Box) -> Row:
    text = visual_order(shown(item, piece), item.text)
    width = item.edges[piece.end] - item.edges[piece.start]
    width = metrics(item.face).width(text) if piece.mark else width
    width_mm = width * piece.size_pt * POINT_MM
    box = Box(area.x_mm, piece.top_mm, width_mm, piece.height_mm)
    baseline = piece.top_mm + item.setting.rise * piece.size_pt * POINT_MM
    end = area.x_mm + piece.room_mm
    return Row(text, item.key, item.style, item.face, piece.size_pt, box, baseline, end)
