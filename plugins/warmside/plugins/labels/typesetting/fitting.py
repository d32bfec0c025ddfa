"""Text fitted into a label: shrunk to a stated minimum, then shortened with a visible mark.

No text is markup: every character is drawn as itself. Sizes are in points, positions in
millimetres from the top left of the page.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

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
from warmside.plugins.labels.typesetting.sizing import Sizes, settled

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
    """The rows of a label, what its reader must be told, and how many lines lost something.

    `sizes` is None where the label was shortened.
    """

    rows: tuple[Row, ...]
    warnings: tuple[str, ...]
    losses: int
    sizes: Sizes | None


def fit(label: Label, column: Column, given: Sizes | None = None, bare: bool = False) -> Fitted:
    """The label's lines set in a column, at the `given` sizes where they fit.

    The code is among them unless `bare`: it stands elsewhere.
    """
    items, warnings = items_of(label)
    if bare:
        items = [item for item in items if item.key != CODE_KEY]
    kept, pieces, lost, sizes = settled(items, column, label.kind, given)
    if lost and not any(p.mark for p in pieces):  # what is left may be set larger again
        kept, pieces, _, _ = settled(kept, column, label.kind)
    cut = dict.fromkeys(kept[p.item].key for p in pieces if p.mark)
    pieces = marked(kept, pieces) if lost else pieces
    rows = tuple(_row(kept[p.item], p, column.area) for p in pieces)
    _refuse_mute_sign(label, lost)
    return Fitted(
        rows, (*warnings, *_told(label, cut, lost)), len(cut) + len(lost), None if lost else sizes
    )


def _told(label: Label, cut: Iterable[str], lost: Sequence[str]) -> Iterator[str]:
    """What is said of lines that had no room."""
    name = quoted(label.code_text)
    if keys := ", ".join(cut):
        yield f"label {name}: shortened to fit: {keys}"
    if keys := ", ".join(dict.fromkeys(lost)):
        yield f"label {name}: left out for want of room: {keys}"


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
    baseline = piece.top_mm + piece.height_mm * item.setting.rise / item.setting.line
    end = area.x_mm + piece.room_mm
    return Row(text, item.key, item.style, item.face, piece.size_pt, box, baseline, end)
