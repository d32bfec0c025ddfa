"""A sheet of 24 labels beside a bare ReportLab script that draws the same boxes, text and codes."""

from __future__ import annotations

from io import BytesIO

from reportlab.graphics.barcode import qrencoder
from reportlab.pdfgen.canvas import Canvas
from tests.bench.measured import hold_ratio

from warmside.plugins.labels.content.animals import Occupant, Sex, enclosure_label
from warmside.plugins.labels.content.label import Label
from warmside.plugins.labels.drawing.sheet import SheetOptions, draw_sheets
from warmside.plugins.labels.paper.stock import content_box, label_boxes
from warmside.plugins.labels.paper.stockfile import shipped_stocks
from warmside.plugins.labels.typesetting.fonts import metrics
from warmside.plugins.labels.typesetting.layout import Layout, lay_out_all
from warmside.plugins.labels.typesetting.qr import QUIET_MODULES, qr_matrix

LIMIT = 2.5
RUNS = 9
POINT = 72 / 25.4
STOCK = shipped_stocks()[0]


def _labels() -> list[Label]:
    animal = Occupant("A012", "Juniper", "", "Lepidodactylus fictus", Sex.FEMALE, "2021-05-12")
    return [enclosure_label(f"RACK-{n:02}", [animal], room="back room") for n in range(24)]


def _ours() -> bytes:
    qr_matrix.cache_clear()
    return draw_sheets(_labels(), STOCK, SheetOptions(cut_lines=True)).pdf


def _bare(layouts: list[Layout], payloads: list[str]) -> bytes:
    """What one would write by hand, every position known beforehand."""
    buffer = BytesIO()
    height = STOCK.page_height_mm * POINT
    canvas = Canvas(buffer, pagesize=(STOCK.page_width_mm * POINT, height), invariant=1)
    for box, layout, text in zip(label_boxes(STOCK), layouts, payloads, strict=True):
        size = (box.width_mm * POINT, box.height_mm * POINT)
        canvas.roundRect(box.x_mm * POINT, height - box.bottom_mm * POINT, *size, 2 * POINT)
        for row in layout.rows:
            canvas.setFont(metrics(row.face).name, row.size_pt)
            canvas.drawString(row.box.x_mm * POINT, height - row.baseline_mm * POINT, row.text)
        _bare_code(canvas, text, layout, height)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _bare_code(canvas: Canvas, text: str, layout: Layout, height: float) -> None:
    code = qrencoder.QRCode(None, qrencoder.QRErrorCorrectLevel.M)
    code.addData(text)
    code.make()
    assert layout.qr and layout.qr_box
    side = layout.qr.module_mm * POINT
    left = layout.qr_box.x_mm * POINT + QUIET_MODULES * side
    top = height - layout.qr_box.y_mm * POINT - QUIET_MODULES * side
    path = canvas.beginPath()
    for n, row in enumerate(code.modules, 1):
        start = None
        for x, dark in enumerate([*row, False]):
            if dark and start is None:
                start = x
            elif not dark and start is not None:
                path.rect(left + start * side, top - n * side, (x - start) * side, side)
                start = None
    canvas.drawPath(path, stroke=0, fill=1)


def test_a_sheet_of_24_takes_at_most_two_and_a_half_times_a_bare_script() -> None:
    labels = _labels()
    boxes = label_boxes(STOCK)
    pairs = zip(labels, boxes, strict=True)
    layouts = [lay_out_all([label], box, content_box(STOCK, box))[0] for label, box in pairs]
    payloads = [label.payload for label in labels]
    bare = lambda: _bare(layouts, payloads)  # noqa: E731
    hold_ratio("sheet of 24 labels to a bare script", _ours, bare, LIMIT, RUNS)
