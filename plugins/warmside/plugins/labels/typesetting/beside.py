"""The code that stands below its QR, in one size on all labels of a sheet."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from warmside.plugins.labels.content.label import Label, Style
from warmside.plugins.labels.paper.stock import Box
from warmside.plugins.labels.typesetting.fitting import Row
from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.items import CODE_KEY
from warmside.plugins.labels.typesetting.qr import QrPlan
from warmside.plugins.labels.typesetting.rows import POINT_MM, SMALLEST_PT
from warmside.plugins.labels.typesetting.script import visual_order
from warmside.plugins.labels.typesetting.wording import drawable

_LINE = 1.2  # of the size: the height of the code's row
_RISE = 0.93
_MOST_PT = 16.0
_OF_NAME = 0.8  # the code is never larger than this part of the name


class Beside(Struct, frozen=True):
    """A code with the room below its QR; `free` is the QR's square and that room together."""

    code: str
    size_pt: float
    room: Box
    free: Box


def plan_beside(
    labels: Sequence[Label], plans: Sequence[QrPlan | None], qr_box: Box | None, inner: Box
) -> tuple[Beside | None, ...]:
    """For each label its code below the QR, or None where it stands among the lines.

    So it does on signs, on labels that no name leads, without a QR, and where one of the codes is
    too long for the room.
    """
    codes = [drawable(label.code_text, Face.BOLD).text for label in labels]
    led = [
        bool(plan and code) and any(x.style is Style.NAME for x in label.lines)
        for label, plan, code in zip(labels, plans, codes, strict=True)
    ]
    plan = next((p for p in plans if p), None)
    if labels[0].kind.is_sign or not any(led) or plan is None or qr_box is None:
        return tuple(None for _ in labels)
    room = _room(qr_box, plan, inner)
    size = _size([c for c, mine in zip(codes, led, strict=True) if mine], room)
    if size < SMALLEST_PT:
        return tuple(None for _ in labels)
    height = size * _LINE * POINT_MM
    below = Box(room.x_mm, room.y_mm, room.width_mm, height)
    free = Box(qr_box.x_mm, qr_box.y_mm, qr_box.width_mm, below.bottom_mm - qr_box.y_mm)
    return tuple(
        Beside(code, size, below, free) if mine else None
        for code, mine in zip(codes, led, strict=True)
    )


def _room(qr_box: Box, plan: QrPlan, inner: Box) -> Box:
    """From the quiet zone's end to the end of the label, as wide as the dark modules."""
    x, y = qr_box.x_mm + plan.quiet_mm, qr_box.bottom_mm
    return Box(x, y, inner.right_mm - x, max(inner.bottom_mm - y, 0.0))


def _size(codes: Sequence[str], room: Box) -> float:
    widest = max(metrics(Face.BOLD).width(code) for code in codes)
    across = room.width_mm / (widest * POINT_MM) * (1 - 1e-9)
    return min(across, room.height_mm / (_LINE * POINT_MM), _MOST_PT)


def code_row(beside: Beside, name_pt: float) -> Row:
    """The code's row, smaller than the name; at the left edge of the QR's modules."""
    size = max(min(beside.size_pt, _OF_NAME * name_pt), SMALLEST_PT)
    text = visual_order(beside.code, beside.code)
    width = metrics(Face.BOLD).width(text) * size * POINT_MM
    room = beside.room
    box = Box(room.x_mm, room.y_mm, width, room.height_mm)
    baseline = room.y_mm + _RISE * size * POINT_MM
    return Row(text, CODE_KEY, None, Face.BOLD, size, box, baseline, room.right_mm)
