"""Marks on a PDF canvas, from millimetres with y downwards to points with y upwards."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.labels.content.label import Style
from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.qr import QUIET_MODULES

if TYPE_CHECKING:
    from warmside.plugins.labels.paper.stock import Box
    from warmside.plugins.labels.typesetting.fitting import Row
    from warmside.plugins.labels.typesetting.layout import Layout
    from warmside.plugins.labels.typesetting.qr import Matrix

POINT = 72 / 25.4
CREATOR = "warmside labels"  # in each PDF; only such files are overwritten unasked
_HAIRLINE_MM = 0.15
_RULE_MM = 0.25
_MARK_MM = 2.5
_BAND_MM = 0.8  # how far the band of white words reaches beyond its row; less than the frame's gap


class Sheet(Struct, frozen=True):
    """A ReportLab canvas with the height of its page."""

    canvas: Any
    height_mm: float

    def rect(self, box: Box, radius_mm: float = 0.0, fill: bool = False) -> None:
        """A rectangle, outlined or filled, with rounded corners where a radius is given."""
        x, y = box.x_mm * POINT, (self.height_mm - box.bottom_mm) * POINT
        width, height = box.width_mm * POINT, box.height_mm * POINT
        if radius_mm:
            self.canvas.roundRect(x, y, width, height, radius_mm * POINT, int(not fill), int(fill))
        else:
            self.canvas.rect(x, y, width, height, int(not fill), int(fill))

    def line(self, x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float) -> None:
        """A line between two points."""
        flip = self.height_mm
        self.canvas.line(
            x1_mm * POINT, (flip - y1_mm) * POINT, x2_mm * POINT, (flip - y2_mm) * POINT
        )

    def width(self, width_mm: float) -> None:
        """The width of the lines that follow."""
        self.canvas.setLineWidth(width_mm * POINT)

    def text(self, x_mm: float, y_mm: float, text: str, face: Face, size_pt: float) -> None:
        """A text from its left end on a baseline."""
        self.canvas.setFont(metrics(face).name, size_pt)
        self.canvas.drawString(x_mm * POINT, (self.height_mm - y_mm) * POINT, text)

    def clip(self, box: Box) -> None:
        """Nothing drawn after this shows outside the box, until the state is restored."""
        path = self.canvas.beginPath()
        x, y = box.x_mm * POINT, (self.height_mm - box.bottom_mm) * POINT
        path.rect(x, y, box.width_mm * POINT, box.height_mm * POINT)
        self.canvas.clipPath(path, stroke=0, fill=0)


def draw_label(
    sheet: Sheet, layout: Layout, box: Box, place: Box, picture: bytes | None = None
) -> None:
    """A label laid out in `box`, drawn in its place, with a picture where it has room for one.

    `box` guards against glyphs that are taller than their face says.
    """
    sheet.canvas.saveState()
    sheet.canvas.translate((place.x_mm - box.x_mm) * POINT, (box.y_mm - place.y_mm) * POINT)
    sheet.clip(box)
    if layout.frame:
        sheet.width(layout.frame_mm)
        sheet.rect(layout.frame)
    for row in layout.rows:
        _draw_row(sheet, row, layout)
    sheet.width(_HAIRLINE_MM)
    for rule in layout.rules:
        sheet.line(rule.from_mm, rule.y_mm, rule.to_mm, rule.y_mm)
    if layout.qr and layout.qr_box:
        _draw_qr(sheet, layout.qr.matrix, layout.qr.module_mm, layout.qr_box)
    if layout.picture and picture:
        _draw_picture(sheet, picture, layout.picture)
    sheet.canvas.restoreState()


def outline(sheet: Sheet, box: Box, radius_mm: float) -> None:
    """The line to cut along."""
    sheet.width(_HAIRLINE_MM)
    sheet.rect(box, radius_mm)


def corners(sheet: Sheet, box: Box) -> None:
    """Short marks at the four corners to cut by, where a frame would show on a cut that strays."""
    sheet.width(_HAIRLINE_MM)
    for x, inward in ((box.x_mm, _MARK_MM), (box.right_mm, -_MARK_MM)):
        for y, down in ((box.y_mm, _MARK_MM), (box.bottom_mm, -_MARK_MM)):
            sheet.line(x, y, x + inward, y)
            sheet.line(x, y, x, y + down)


def cross_out(sheet: Sheet, box: Box) -> None:
    """A place that is used up, in a preview: crossed out, and said in a word."""
    outline(sheet, box, 0.0)
    sheet.line(box.x_mm, box.y_mm, box.right_mm, box.bottom_mm)
    sheet.line(box.x_mm, box.bottom_mm, box.right_mm, box.y_mm)
    sheet.text(box.x_mm + 2, box.y_mm + box.height_mm / 2, "used", Face.REGULAR, 8)


def _draw_row(sheet: Sheet, row: Row, layout: Layout) -> None:
    inverted = layout.inverted and row.style is Style.LARGE
    if inverted:
        width = row.room_to_mm - row.box.x_mm + 2 * _BAND_MM
        sheet.rect(replace(row.box, x_mm=row.box.x_mm - _BAND_MM, width_mm=width), fill=True)
        sheet.canvas.setFillGray(1)
    sheet.text(row.box.x_mm, row.baseline_mm, row.text, row.face, row.size_pt)
    if inverted:
        sheet.canvas.setFillGray(0)
    if row.style is Style.BLANK:
        sheet.width(_RULE_MM)
        sheet.line(row.box.right_mm + 1, row.baseline_mm, row.room_to_mm, row.baseline_mm)


def _draw_picture(sheet: Sheet, picture: bytes, box: Box) -> None:
    """The whole picture, as large as its room lets it be, in the middle of that."""
    from reportlab.lib.utils import ImageReader

    image = ImageReader(BytesIO(picture))
    x, y = box.x_mm * POINT, (sheet.height_mm - box.bottom_mm) * POINT
    sides = {"width": box.width_mm * POINT, "height": box.height_mm * POINT}
    sheet.canvas.drawImage(image, x, y, **sides, preserveAspectRatio=True, anchor="n")


def _draw_qr(sheet: Sheet, matrix: Matrix, module_mm: float, box: Box) -> None:
    """Runs of dark modules as one path: much faster than a shape a module."""
    path = sheet.canvas.beginPath()
    side = module_mm * POINT
    left = (box.x_mm + QUIET_MODULES * module_mm) * POINT
    top = (sheet.height_mm - box.y_mm - QUIET_MODULES * module_mm) * POINT
    for n, row in enumerate(matrix, 1):
        start = 0
        while True in row[start:]:
            start = row.index(True, start)
            end = row.index(False, start) if False in row[start:] else len(row)
            path.rect(left + start * side, top - n * side, (end - start) * side, side)
            start = end
    sheet.canvas.drawPath(path, stroke=0, fill=1)
