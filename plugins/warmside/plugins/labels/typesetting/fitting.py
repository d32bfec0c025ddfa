"""Text fitted into a label: shrunk to a stated minimum, then shortened with a visible mark.

No text is markup: every character is drawn as itself. Sizes are in points, positions in
millimetres from the top left of the page.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import TYPE_CHECKING

from warmside.api import BadInput, quoted
from warmside.plugins.labels.content.label import LabelKind, Style
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.flow import (
    POINT_MM,
    SMALLEST_PT,
    Column,
    Item,
    Piece,
    Setting,
    flow,
    omitted,
    shown,
)
from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.script import visual_order
from warmside.plugins.labels.typesetting.wording import ELLIPSIS, Drawable, drawable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from warmside.plugins.labels.content.label import Label

CODE_KEY = "code"
CAP_HEIGHT = 0.729  # of the size, in the bold face
_BASE_PT = (8.0, 22.0)  # the largest base size, on the lowest and the highest label
_BASE_PER_MM = (0.2, 0.36)  # of the width and of the height
_GAPS = (0.6, 0.4, 0.2)  # white between lines beside the base size, where there is room for it
_CODE_RATIOS = (4.0, 3.5, 3.0, 2.5, 2.0)
_RATIOS = {  # of code and large words, tried in turn; an enclosure's code comes before all else
    LabelKind.ENCLOSURE: tuple((ratio, 2.4) for ratio in _CODE_RATIOS[:4]),
    LabelKind.ANIMAL: tuple((ratio, 2.4) for ratio in _CODE_RATIOS),
    LabelKind.SITTER: tuple((ratio, 2.4) for ratio in _CODE_RATIOS),
    LabelKind.DOOR: ((1.6, 2.4), (1.5, 2.0), (1.4, 1.7), (1.3, 1.34)),
    LabelKind.HAZARD: ((1.6, 2.4), (1.5, 2.0), (1.4, 1.7), (1.3, 1.34)),
}
_STEPS = 6  # of halving between the smallest and the largest base size
_SLACK_MM = 1e-6

SETTINGS: dict[Style, Setting] = {
    Style.LARGE: Setting(Face.BOLD, 2.4, 8.0, True),
    Style.NAME: Setting(Face.BOLD, 1.5, SMALLEST_PT, False, folds=2),
    Style.LATIN: Setting(Face.OBLIQUE, 1.1, SMALLEST_PT, False, folds=2),
    Style.PLAIN: Setting(Face.REGULAR, 1.0, SMALLEST_PT, True),
    Style.CAUTION: Setting(Face.BOLD, 1.1, SMALLEST_PT, True),
    Style.BLANK: Setting(Face.REGULAR, 1.0, SMALLEST_PT, False, 1.9, 1.6, writing=True),
}


@dataclass(frozen=True, slots=True)
class Row:
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


@dataclass(frozen=True, slots=True)
class Fitted:
    """The rows of a label, what its reader must be told, and how many lines lost something."""

    rows: tuple[Row, ...]
    warnings: tuple[str, ...]
    losses: int
    code_pt: float


def fit(label: Label, area: Box, free: Box | None) -> Fitted:
    """The label's code and lines set within `area`, clear of the square `free` at its right."""
    items, warnings = _items(label)
    column = Column(area, free)
    kept, pieces, lost = _settle(items, column, _RATIOS[label.kind])
    if lost and not any(p.mark for p in pieces):  # what is left may be set larger again
        kept, pieces, _ = _settle(kept, column, _RATIOS[label.kind])
    cut = dict.fromkeys(kept[p.item].key for p in pieces if p.mark)
    pieces = _marked(kept, pieces) if lost else pieces
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


def _items(label: Label) -> tuple[list[Item], list[str]]:
    """The code and the lines ready to be set: the code first, on signs last."""
    code = drawable(label.code_text, Face.BOLD)
    lines = [(line, drawable(line.text, SETTINGS[line.style].face)) for line in label.lines]
    top = [_item(code, CODE_KEY, None, _code_setting(label), True)] if code.text else []
    rest = [
        _item(ready, line.key, line.style, SETTINGS[line.style], line.needed)
        for line, ready in lines
        if ready.text
    ]
    name = quoted(label.code_text)
    said = _said(code, name, CODE_KEY)
    said += [warning for line, ready in lines for warning in _said(ready, name, line.key)]
    return rest + top if label.kind.is_sign else top + rest, list(dict.fromkeys(said))


def _code_setting(label: Label) -> Setting:
    """The code's rows are tight: capitals and figures need no room for accents or tails."""
    rise = 0.78 if label.code_text.isascii() else 0.93
    fall = 0.24 if any(c in "gjpqy_,;()[]{}|@$Q/\\" for c in label.code_text) else 0.1
    fall = fall if label.code_text.isascii() else 0.24
    return Setting(Face.BOLD, 4.0, SMALLEST_PT, False, rise + fall + 0.05, rise)


def _item(ready: Drawable, key: str, style: Style | None, setting: Setting, needed: bool) -> Item:
    known = metrics(ready.face)
    edges = tuple(accumulate(known.advances(ready.text), initial=0.0))
    word = max(known.width(word) for word in ready.text.split(" "))
    mark = known.width(ELLIPSIS)
    return Item(ready.text, key, style, ready.face, setting, needed, edges, max(word, 0.01), mark)


def _said(ready: Drawable, name: str, key: str) -> list[str]:
    said = []
    if ready.lost:
        more = f" and {len(ready.lost) - 5} more" if len(ready.lost) > 5 else ""
        said.append(
            f"label {name}: {key} has characters that cannot be drawn:"
            f" {', '.join(ready.lost[:5])}{more}"
        )
    if ready.hidden:
        said.append(f"label {name}: {key} had control or direction characters, taken out")
    if ready.cut:
        said.append(f"label {name}: {key} is far too long and was shortened")
    return said


def _settle(
    items: Sequence[Item], column: Column, ratios: Sequence[tuple[float, float]]
) -> tuple[Sequence[Item], list[Piece], list[str]]:
    """The items kept, their pieces, and the keys of those left out."""
    for pair in ratios:
        sized = _with_ratios(items, pair)
        pieces = flow(sized, column, SMALLEST_PT, {})
        if _fits(pieces, column):
            return sized, _largest(sized, column, pieces), []
    return _shorten(_with_ratios(items, ratios[-1]), column)


def _with_ratios(items: Sequence[Item], pair: tuple[float, float]) -> list[Item]:
    wanted = dict(zip((None, Style.LARGE), pair, strict=True))
    return [
        replace(item, setting=replace(item.setting, ratio=wanted[item.style]))
        if item.style in wanted
        else item
        for item in items
    ]


def _fits(pieces: Sequence[Piece], column: Column) -> bool:
    end = pieces[-1].top_mm + pieces[-1].height_mm if pieces else 0.0
    return end <= column.area.bottom_mm + _SLACK_MM


def _largest(items: Sequence[Item], column: Column, best: list[Piece]) -> list[Piece]:
    """The pieces at the largest base size that fits, found by halving; `best` is the smallest."""
    fitting = SMALLEST_PT
    wide, tall = (column.area.width_mm, column.area.height_mm)
    size = min(wide * _BASE_PER_MM[0], tall * _BASE_PER_MM[1])
    size = high = min(max(size, _BASE_PT[0]), _BASE_PT[1])
    for _ in range(_STEPS):
        pieces = flow(items, column, size, {})
        if _fits(pieces, column):
            fitting, best = size, pieces
        else:
            high = size
        if fitting >= high:
            break
        size = (fitting + high) / 2
    return _aired(items, column, fitting, best)


def _aired(
    items: Sequence[Item], column: Column, base_pt: float, tight: list[Piece]
) -> list[Piece]:
    """The pieces with white between the lines, as far as the label has room for it."""
    for gap in _GAPS:
        pieces = flow(items, column, base_pt, {}, gap * base_pt * POINT_MM)
        if _fits(pieces, column):
            return pieces
    return tight


def _shorten(items: list[Item], column: Column) -> tuple[Sequence[Item], list[Piece], list[str]]:
    """Rows taken from the longest plain texts first, then whole lines from the end.

    A caution is never cut in its middle while there is another one to leave out.
    """
    lost: list[str] = []
    while True:
        pieces = _capped(items, column)
        if _fits(pieces, column) or len(items) == 1:
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
        if _fits(pieces, column) or longest < 0 or counts[longest] == 1:
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


def _marked(items: Sequence[Item], pieces: list[Piece]) -> list[Piece]:
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


def _row(item: Item, piece: Piece, area: Box) -> Row:
    text = visual_order(shown(item, piece))
    width = item.edges[piece.end] - item.edges[piece.start]
    width = metrics(item.face).width(text) if piece.mark else width
    width_mm = width * piece.size_pt * POINT_MM
    box = Box(area.x_mm, piece.top_mm, width_mm, piece.height_mm)
    baseline = piece.top_mm + item.setting.rise * piece.size_pt * POINT_MM
    end = area.x_mm + piece.room_mm
    return Row(text, item.key, item.style, item.face, piece.size_pt, box, baseline, end)
