"""A label laid out in its place: rows, QR and frame, with nothing outside the printable part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.fitting import CAP_HEIGHT, Fitted, Row, fit
from warmside.plugins.labels.typesetting.qr import QrPlan, plan_qr
from warmside.plugins.labels.typesetting.rows import POINT_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from warmside.plugins.labels.content.label import Label

FAR_READABLE_MM = 8.0  # capitals this high are read from two metres; common practice, no source
_FRAME_MM = {LabelKind.DOOR: 0.7, LabelKind.HAZARD: 1.2}
_FRAME_GAP_MM = 1.2
_SMALL_MM = 30.0  # on labels lower than this a frame is thinner
_WANTED = (0.36, 0.9)  # of the label's width and height
_LARGEST_QR_MM = 30.0
_ROOM = 0.55  # of the label's width that a QR may take at most


class Layout(Struct, frozen=True):
    """A label ready to draw. `qr_box` includes the quiet zone; `frame_mm` is the frame's width."""

    rows: tuple[Row, ...]
    qr: QrPlan | None
    qr_box: Box | None
    frame: Box | None
    frame_mm: float
    inverted: bool
    code_height_mm: float
    warnings: tuple[str, ...]


def lay_out(label: Label, box: Box, content: Box) -> Layout:
    """The label laid out in `box`, with print only within `content`.

    BadInput when its QR does not fit.
    """
    frame_mm = _frame_width(label.kind, content)
    inner = content.inset(frame_mm + _FRAME_GAP_MM) if frame_mm else content
    tries = [
        (fit(label, inner, place), plan, place)
        for plan in _plans(label, box, inner)
        for place in _places(label.kind, plan, box, inner)
    ]
    best, plan, qr_box = min(tries, key=lambda found: _rank(label.kind, *found[:2]))
    return Layout(
        best.rows,
        plan,
        qr_box,
        content.inset(frame_mm / 2) if frame_mm else None,
        frame_mm,
        label.kind is LabelKind.HAZARD,
        best.code_pt * CAP_HEIGHT * POINT_MM,
        best.warnings,
    )


def _frame_width(kind: LabelKind, content: Box) -> float:
    width = _FRAME_MM.get(kind, 0.0)
    return width / 2 if content.height_mm < _SMALL_MM else width


def _plans(label: Label, box: Box, inner: Box) -> Sequence[QrPlan | None]:
    """A QR of a good size, and the smallest one that still scans, for labels that say much."""
    if not label.payload:
        return [None]
    wanted = min(_WANTED[0] * inner.width_mm, _WANTED[1] * inner.height_mm, _LARGEST_QR_MM)
    bounds = inner if label.kind.is_sign else box
    room = min(_ROOM * inner.width_mm, bounds.height_mm)
    good, small = (plan_qr(label.payload, size, room) for size in (wanted, 0.0))
    return [good] if good == small else [good, small]


def _places(kind: LabelKind, plan: QrPlan | None, box: Box, inner: Box) -> list[Box] | list[None]:
    """Where the QR may stand: below the large words of a sign, else at the top or bottom right.

    Its quiet zone may reach into the label's padding, but its modules stay within `inner`.
    """
    if plan is None:
        return [None]
    side, quiet = plan.side_mm, plan.quiet_mm
    outer = inner if kind.is_sign else box.meet(inner.inset(-quiet))
    x = outer.right_mm - side
    top, bottom = Box(x, outer.y_mm, side, side), Box(x, outer.bottom_mm - side, side, side)
    return [bottom] if kind.is_sign else [top, bottom]


def _rank(
    kind: LabelKind, fitted: Fitted, plan: QrPlan | None
) -> tuple[float, float, float, float]:
    """Fewest losses first; then a code that reads from afar; then a large QR and large text.

    A sign's code need not be read from afar, its large words are.
    """
    far_pt = FAR_READABLE_MM / (CAP_HEIGHT * POINT_MM)
    text = sum(row.size_pt for row in fitted.rows)
    module = plan.module_mm if plan else 0.0
    code_pt = 0.0 if kind.is_sign else min(fitted.code_pt, far_pt)
    return fitted.losses, -code_pt, -module, -text
