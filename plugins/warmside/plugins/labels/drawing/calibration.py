"""The page by which a printer's error is measured: rulers, control lines of 100 mm, crosses."""

from __future__ import annotations

from io import BytesIO

from warmside.api import BadInput
from warmside.plugins.labels.drawing.marks import CREATOR, POINT, Sheet
from warmside.plugins.labels.paper.profile import (
    CROSS_MM,
    LINE_MM,
    PRINT_NOTE,
    UNCORRECTED,
    PrinterProfile,
)
from warmside.plugins.labels.typesetting.fonts import Face

SMALLEST_PAGE_MM = (140.0, 160.0)
_LINE_X_MM, _LINE_Y_MM = 30.0, 40.0  # where both control lines start
_TICKS = {10: 4.0, 5: 2.5, 1: 1.5}
_STEPS = (
    "1  Lay a steel ruler on the sheet. Measure to a tenth of a millimetre where you can.",
    "2  across: the length of the line A.   down: the length of the line B.",
    "3  left and top: from the paper's edges to the middle of the cross at the upper left.",
    "4  top right: from the paper's upper edge to the middle of the cross at the upper right.",
    "5  Type the five values into the calibration; they should be 100, 100, 20, 20 and 20 mm.",
)


def calibration_page(
    page_width_mm: float, page_height_mm: float, profile: PrinterProfile = UNCORRECTED
) -> bytes:
    """A PDF of one page to print and measure, or with a profile to see that it is right.

    BadInput for a page too small for 100 mm lines.
    """
    from reportlab.pdfgen.canvas import Canvas

    width, height = SMALLEST_PAGE_MM
    if not (page_width_mm >= width and page_height_mm >= height):
        raise BadInput(
            f"a page of {page_width_mm:g} × {page_height_mm:g} mm is too small to calibrate on;"
            f" use one of at least {width:g} × {height:g} mm from the same tray"
        )
    buffer = BytesIO()
    size = (page_width_mm * POINT, page_height_mm * POINT)
    canvas = Canvas(buffer, pagesize=size, invariant=1)
    canvas.setTitle("printer calibration")
    canvas.setCreator(CREATOR)
    canvas.setViewerPreference("PrintScaling", "None")
    if profile != UNCORRECTED:
        canvas.transform(*profile.matrix(page_height_mm))
    sheet = Sheet(canvas, page_height_mm)
    _crosses(sheet, page_width_mm, page_height_mm)
    _rulers(sheet)
    _words(sheet)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _crosses(sheet: Sheet, width: float, height: float) -> None:
    sheet.width(0.2)
    for x in (CROSS_MM, width - CROSS_MM):
        for y in (CROSS_MM, height - CROSS_MM):
            sheet.line(x - 5, y, x + 5, y)
            sheet.line(x, y - 5, x, y + 5)


def _rulers(sheet: Sheet) -> None:
    """Line A across and line B down, with a tick a millimetre and end strokes at 0 and 100."""
    x, y = _LINE_X_MM, _LINE_Y_MM
    sheet.width(0.3)
    sheet.line(x, y, x + LINE_MM, y)
    sheet.line(x, y, x, y + LINE_MM)
    sheet.width(0.12)
    for n in range(int(LINE_MM) + 1):
        tick = next(length for step, length in _TICKS.items() if n % step == 0)
        sheet.line(x + n, y, x + n, y + tick)
        sheet.line(x, y + n, x + tick, y + n)
    for n in range(10, int(LINE_MM) + 1, 10):
        sheet.text(x + n - 2, y + 7.5, str(n), Face.REGULAR, 7)
        sheet.text(x + 5.5, y + n + 1, str(n), Face.REGULAR, 7)
    sheet.text(x + LINE_MM / 2 - 1, y - 2, "A  across", Face.BOLD, 9)
    sheet.text(x - 18, y + LINE_MM / 2, "B  down", Face.BOLD, 9)


def _words(sheet: Sheet) -> None:
    x = _LINE_X_MM + 15
    sheet.text(x, 62, PRINT_NOTE, Face.BOLD, 11)
    for n, step in enumerate(_STEPS):
        first, second = _halved(step)
        sheet.text(x, 72 + n * 12, first, Face.REGULAR, 8)
        sheet.text(x + 4, 76 + n * 12, second, Face.REGULAR, 8)


def _halved(text: str) -> tuple[str, str]:
    """A sentence in two rows of about equal length."""
    space = text.rfind(" ", 0, len(text) // 2 + 6)
    return text[:space], text[space + 1 :]
