"""Whether labels of a stock can be printed at all; BadInput says what to measure again."""

from __future__ import annotations

from warmside.api import BadInput
from warmside.plugins.labels.paper.stock import Stock, content_box, label_boxes

SMALLEST_CONTENT_MM = (15.0, 10.0)  # width and height below which no code can be read
_FIT_MM = 0.01  # rounding of inch sizes


def check_stock(stock: Stock) -> None:
    """Refuse a stock whose labels overlap, leave the page, or have no room for print."""
    last = label_boxes(stock)[-1]
    _check_end(stock, last.right_mm, stock.page_width_mm, "wide")
    _check_end(stock, last.bottom_mm, stock.page_height_mm, "high")
    _check_pitch(stock, stock.pitch_x_mm, stock.label_width_mm, stock.columns)
    _check_pitch(stock, stock.pitch_y_mm, stock.label_height_mm, stock.rows)
    _check_corners(stock)
    _check_room(stock)


def _check_end(stock: Stock, end_mm: float, page_mm: float, side: str) -> None:
    if end_mm > page_mm + _FIT_MM:
        raise BadInput(
            f"stock {stock.name} does not fit its page: the labels end at {end_mm:.2f} mm, the page"
            f" is {page_mm:g} mm {side}; measure margins and pitch again"
        )


def _check_pitch(stock: Stock, pitch_mm: float, size_mm: float, count: int) -> None:
    if count > 1 and pitch_mm < size_mm - _FIT_MM:
        raise BadInput(
            f"stock {stock.name}: labels of {size_mm:g} mm overlap at a pitch of {pitch_mm:g} mm"
        )


def _check_corners(stock: Stock) -> None:
    if 2 * stock.corner_radius_mm > min(stock.label_width_mm, stock.label_height_mm):
        raise BadInput(
            f"stock {stock.name}: corner radius {stock.corner_radius_mm:g} mm is over half a label"
        )


def _check_room(stock: Stock) -> None:
    width, height = SMALLEST_CONTENT_MM
    rooms = [content_box(stock, box) for box in label_boxes(stock)]
    if any(room.width_mm < width or room.height_mm < height for room in rooms):
        raise BadInput(
            f"stock {stock.name} leaves too little to print on; {width:g} × {height:g} mm inside"
            " the edges are needed"
        )
