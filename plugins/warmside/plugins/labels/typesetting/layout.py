"""Labels laid out in their place: rows, QR and frame, with nothing outside the printable part.

Neighbours share one grid: the same sizes, the same lines, the QR in the same corner.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.labels.content.label import LabelKind, Style, group_of
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.beside import Beside, code_row, plan_beside
from warmside.plugins.labels.typesetting.fitting import CAP_HEIGHT, Fitted, Row, fit
from warmside.plugins.labels.typesetting.qr import QrPlan, plan_qrs
from warmside.plugins.labels.typesetting.rows import GROUP_GAP, POINT_MM, Column
from warmside.plugins.labels.typesetting.sizing import Sizes, shared

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from warmside.plugins.labels.content.label import Label

FAR_READABLE_MM = 4.0  # capitals this high are read from a metre; common practice, no source
_FRAME_MM = {LabelKind.DOOR: 0.7, LabelKind.HAZARD: 1.2}
_FRAME_GAP_MM = 2.0
_SMALL_MM = 30.0  # on labels lower than this a frame is thinner
_WANTED = (0.36, 0.9)  # of the label's width and height
_LARGEST_QR_MM = 30.0
_ROOM = 0.55  # of the label's width that a QR may take at most


class Layout(Struct, frozen=True):
    """A label ready to draw. `qr_box` includes the quiet zone; `frame_mm` is the frame's width.

    `lead_mm` is the height of the capitals of what leads it: the name, or the code;
    `rules` part its groups of lines; `picture` is the room for the animal's picture.
    """

    rows: tuple[Row, ...]
    qr: QrPlan | None
    qr_box: Box | None
    frame: Box | None
    frame_mm: float
    inverted: bool
    lead_mm: float
    warnings: tuple[str, ...]
    rules: tuple[Rule, ...]
    picture: Box | None = None


class Rule(Struct, frozen=True):
    """A thin line across a label."""

    from_mm: float
    to_mm: float
    y_mm: float


class Grid(Struct, frozen=True):
    """What labels of a kind share: the label's box, the part for print within its frame, the
    frame's width, and of each label its QR, its square, and the code below it.
    """

    kind: LabelKind
    inner: Box
    frame: Box | None
    frame_mm: float
    plans: tuple[QrPlan | None, ...]
    qr_box: Box | None
    beside: tuple[Beside | None, ...]

    def fitted(self, labels: Sequence[Label]) -> list[Fitted]:
        """Each label by itself, then again at the sizes that all of them have room for."""
        alone = [self._fit(n, label, None) for n, label in enumerate(labels)]
        sizes = shared(f.sizes for f in alone)
        if len(labels) == 1 or sizes is None:
            return alone
        return [self._fit(n, label, sizes) for n, label in enumerate(labels)]

    def _fit(self, n: int, label: Label, sizes: Sizes | None) -> Fitted:
        beside = self.beside[n]
        free = beside.free if beside else self.qr_box if self.plans[n] else None
        return fit(label, Column(self.inner, free), sizes, bare=beside is not None)


def lay_out_all(
    labels: Sequence[Label], box: Box, content: Box, picture: Box | None = None
) -> list[Layout]:
    """Labels laid out alike, each as if it stood in `box`; those of a kind share their grid.

    Print stays within `content`, beside which `picture` is kept free; BadInput where a QR does not
    fit.
    """
    found: dict[Label, Layout] = {}
    for kind in dict.fromkeys(label.kind for label in labels):
        found |= _of_kind([x for x in dict.fromkeys(labels) if x.kind is kind], box, content)
    return [replace(found[label], picture=picture) for label in labels]


def _of_kind(labels: Sequence[Label], box: Box, content: Box) -> dict[Label, Layout]:
    tries = [(grid, grid.fitted(labels)) for grid in _grids(labels, box, content)]
    grid, fitted = min(tries, key=lambda made: sum(f.losses for f in made[1]))
    return {
        label: _layout(grid, n, label, text)
        for n, (label, text) in enumerate(zip(labels, fitted, strict=True))
    }


def _layout(grid: Grid, n: int, label: Label, text: Fitted) -> Layout:
    beside = grid.beside[n]
    lead = max((r.size_pt for r in text.rows if r.style in _LEADS), default=0.0)
    sizes = text.sizes
    name = sizes.leading * sizes.base_pt if sizes else lead
    rows = (*text.rows, code_row(beside, name)) if beside else text.rows
    return Layout(
        rows,
        grid.plans[n],
        grid.qr_box if grid.plans[n] else None,
        grid.frame,
        grid.frame_mm,
        label.kind is LabelKind.HAZARD,
        (lead or max((r.size_pt for r in rows), default=0.0)) * CAP_HEIGHT * POINT_MM,
        text.warnings,
        () if grid.kind.is_sign else tuple(_group_rules(text.rows)),
    )


def _group_rules(rows: Sequence[Row]) -> Iterator[Rule]:
    """Thin rules that part who it is, its food, what not to do, and whom to call."""
    for before, row in pairwise(rows):
        if group_of(row.key) > group_of(before.key):
            lift = GROUP_GAP * row.size_pt * POINT_MM / 2
            yield Rule(row.box.x_mm, min(row.room_to_mm, before.room_to_mm), row.box.y_mm - lift)


_LEADS = (Style.NAME, None)


def _grids(labels: Sequence[Label], box: Box, content: Box) -> list[Grid]:
    """Grids to try: with a QR of a good size, and with the smallest one that still scans."""
    kind = labels[0].kind
    frame_mm = _frame_width(kind, content)
    inner = content.inset(frame_mm + _frame_gap(content)) if frame_mm else content
    frame = content.inset(frame_mm / 2) if frame_mm else None
    found: list[Grid] = []
    for plans in _plans(labels, box, inner):
        side = next((p for p in plans if p), None)
        qr_box = _place(kind, side, box, inner) if side else None
        beside = plan_beside(labels, plans, qr_box, inner)
        found.append(Grid(kind, inner, frame, frame_mm, plans, qr_box, beside))
    return found


def _frame_width(kind: LabelKind, content: Box) -> float:
    width = _FRAME_MM.get(kind, 0.0)
    return width / 2 if content.height_mm < _SMALL_MM else width


def _frame_gap(content: Box) -> float:
    return _FRAME_GAP_MM * (0.6 if content.height_mm < _SMALL_MM else 1.0)


def _plans(labels: Sequence[Label], box: Box, inner: Box) -> list[tuple[QrPlan | None, ...]]:
    texts = [label.payload for label in labels if label.payload]
    if not texts:
        return [tuple(None for _ in labels)]
    wanted = min(_WANTED[0] * inner.width_mm, _WANTED[1] * inner.height_mm, _LARGEST_QR_MM)
    bounds = inner if labels[0].kind.is_sign else box
    room = min(_ROOM * inner.width_mm, bounds.height_mm)
    both = [iter(plan_qrs(texts, size, room)) for size in (wanted, 0.0)]
    good, small = (tuple(next(p) if x.payload else None for x in labels) for p in both)
    return [good] if good == small else [good, small]


def _place(kind: LabelKind, plan: QrPlan, box: Box, inner: Box) -> Box:
    """Where the QR stands: below the large words of a sign, else at the top right.

    Its quiet zone may reach into the label's padding, but its modules stay within `inner`.
    """
    side, quiet = plan.side_mm, plan.quiet_mm
    outer = inner if kind.is_sign else box.meet(inner.inset(-quiet))
    y = outer.bottom_mm - side if kind.is_sign else outer.y_mm
    return Box(outer.right_mm - side, y, side, side)
