"""Labels drawn on sheets, rolls or cards as a PDF."""

from __future__ import annotations

import math
from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING

from msgspec import Struct, field

from warmside.api import BadInput
from warmside.plugins.labels.drawing.marks import (
    CREATOR,
    POINT,
    Sheet,
    corners,
    cross_out,
    draw_label,
    outline,
)
from warmside.plugins.labels.paper.places import Placed, free_places, place_labels, used_after
from warmside.plugins.labels.paper.profile import PRINT_NOTE, UNCORRECTED, PrinterProfile
from warmside.plugins.labels.paper.stock import Box, content_of_all, label_boxes
from warmside.plugins.labels.typesetting.fonts import Face
from warmside.plugins.labels.typesetting.layout import Layout, lay_out_all
from warmside.plugins.labels.typesetting.portrait import with_portrait

if TYPE_CHECKING:
    from collections.abc import Sequence

    from warmside.plugins.labels.content.label import Label
    from warmside.plugins.labels.paper.stock import Stock

_NOTE_PT = 6.0
_NOTE_ROOM_MM = 3.5


class SheetOptions(Struct, frozen=True):
    """How to print: first place, places already used on the first sheet, copies of each label,
    lines to cut along or marks at the corners on plain paper, a preview that marks used places,
    the printer's correction, small pictures by the code of whose card they are on.
    """

    start: int = 1
    used: frozenset[int] = frozenset()
    copies: int = 1
    cut_lines: bool = False
    cut_marks: bool = False
    preview: bool = False
    profile: PrinterProfile = UNCORRECTED
    pictures: Mapping[str, bytes] = field(default_factory=dict)


PLAIN = SheetOptions()


class SheetResult(Struct, frozen=True):
    """The PDF and what to tell: where each label is, `used` places of the last sheet, warnings.

    `used` is empty where the last sheet is full. `lead_mm` is that of the smallest
    name's capitals, signs left out.
    """

    pdf: bytes
    pages: int
    placed: tuple[Placed, ...]
    used: frozenset[int]
    warnings: tuple[str, ...]
    lead_mm: float


def draw_sheets(
    labels: Sequence[Label], stock: Stock, options: SheetOptions = PLAIN
) -> SheetResult:
    """The labels on the free places of as many pages as they need; BadInput when it cannot be."""
    free = free_places(stock, options.start, options.used)
    placed = place_labels(labels, stock, free, options.copies)
    layouts = _lay_out(placed, stock, bool(options.pictures))
    pdf = _pdf(placed, layouts, stock, options, frozenset(free))
    seen = dict.fromkeys(warning for layout in layouts for warning in layout.warnings)
    return SheetResult(
        pdf,
        placed[-1].page + 1,
        tuple(placed),
        used_after(stock, free, placed),
        tuple(seen),
        _smallest_lead_mm(placed, layouts),
    )


def _smallest_lead_mm(placed: Sequence[Placed], layouts: Sequence[Layout]) -> float:
    """The height of the smallest name's capitals; signs have large words instead."""
    pairs = zip(placed, layouts, strict=True)
    heights = (layout.lead_mm for item, layout in pairs if not item.label.kind.is_sign)
    return min(heights, default=math.inf)


def _lay_out(placed: Sequence[Placed], stock: Stock, pictured: bool) -> list[Layout]:
    """Layouts in the order of the labels, all of one grid, as if each stood in the first place."""
    content, labels = content_of_all(stock), [item.label for item in placed]
    room = with_portrait(content) if pictured else None
    if pictured and room is None:
        raise BadInput(f"{stock.name} has no room for pictures; take a larger stock")
    picture, rest = room or (None, content)
    return lay_out_all(labels, label_boxes(stock)[0], rest, picture)


def _pdf(
    placed: Sequence[Placed],
    layouts: Sequence[Layout],
    stock: Stock,
    options: SheetOptions,
    free: frozenset[int],
) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    buffer = BytesIO()
    size = (stock.page_width_mm * POINT, stock.page_height_mm * POINT)
    canvas = Canvas(buffer, pagesize=size, invariant=1)
    canvas.setTitle(f"labels {stock.name}")
    canvas.setCreator(CREATOR)
    canvas.setViewerPreference("PrintScaling", "None")
    sheet = Sheet(canvas, stock.page_height_mm)
    boxes = label_boxes(stock)
    for page in range(placed[-1].page + 1):
        _begin(sheet, stock, options, boxes, None if page else free)
        for item, layout in zip(placed, layouts, strict=True):
            if item.page == page:
                picture = options.pictures.get(item.label.code_text)
                draw_label(sheet, layout, boxes[0], boxes[item.place - 1], picture)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _begin(
    sheet: Sheet,
    stock: Stock,
    options: SheetOptions,
    boxes: Sequence[Box],
    free: frozenset[int] | None,
) -> None:
    """What lies below the labels of a page: correction, note, outlines, used places."""
    matrix = options.profile.matrix(stock.page_height_mm)
    if options.profile != UNCORRECTED:
        sheet.canvas.transform(*matrix)
    if _has_note(stock):
        y = stock.page_height_mm - stock.edge_mm - 1
        sheet.text(stock.edge_mm + 2, y, PRINT_NOTE, Face.REGULAR, _NOTE_PT)
    for place, box in enumerate(boxes, 1):
        if options.preview and free is not None and place not in free:
            cross_out(sheet, box)
        elif options.cut_lines or options.preview:
            outline(sheet, box, stock.corner_radius_mm)
        elif options.cut_marks:
            corners(sheet, box)


def _has_note(stock: Stock) -> bool:
    return stock.bottom_margin_mm >= stock.edge_mm + _NOTE_ROOM_MM
