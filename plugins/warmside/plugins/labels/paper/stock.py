"""Label stocks: pages of labels named by their geometry; millimetres from the top left corner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import BadInput, near_miss

if TYPE_CHECKING:
    from collections.abc import Sequence

    from warmside.api import Source

PADDING_MM = 1.5  # white kept between a label's edge and its print; sheets are never cut exactly


class Box(Struct, frozen=True):
    """A rectangle in millimetres; y grows downwards from the top of the page."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float

    @property
    def right_mm(self) -> float:
        """The x of the right side."""
        return self.x_mm + self.width_mm

    @property
    def bottom_mm(self) -> float:
        """The y of the lower side."""
        return self.y_mm + self.height_mm

    def inset(self, by_mm: float) -> Box:
        """The box made smaller by the same width on each side."""
        return Box(
            self.x_mm + by_mm,
            self.y_mm + by_mm,
            self.width_mm - 2 * by_mm,
            self.height_mm - 2 * by_mm,
        )

    def meet(self, other: Box) -> Box:
        """The part that lies in both boxes."""
        x, y = max(self.x_mm, other.x_mm), max(self.y_mm, other.y_mm)
        right = min(self.right_mm, other.right_mm)
        bottom = min(self.bottom_mm, other.bottom_mm)
        return Box(x, y, right - x, bottom - y)


class Stock(Struct, frozen=True):
    """A page of equal labels; a roll or a card is a page of one.

    `edge_mm` is the strip along the sides of the page in which nothing is printed.
    """

    name: str
    page_width_mm: float
    page_height_mm: float
    columns: int
    rows: int
    label_width_mm: float
    label_height_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    margin_left_mm: float
    margin_top_mm: float
    corner_radius_mm: float
    edge_mm: float
    source: Source

    @property
    def places(self) -> int:
        """How many labels a page holds."""
        return self.columns * self.rows

    @property
    def page(self) -> Box:
        """The page as a box at the origin."""
        return Box(0.0, 0.0, self.page_width_mm, self.page_height_mm)

    @property
    def bottom_margin_mm(self) -> float:
        """The height of the strip below the last row of labels."""
        last = self.margin_top_mm + (self.rows - 1) * self.pitch_y_mm + self.label_height_mm
        return self.page_height_mm - last


def label_boxes(stock: Stock) -> list[Box]:
    """The labels of a page, row by row from the top left; place n is item n - 1."""
    return [
        Box(
            stock.margin_left_mm + column * stock.pitch_x_mm,
            stock.margin_top_mm + row * stock.pitch_y_mm,
            stock.label_width_mm,
            stock.label_height_mm,
        )
        for row in range(stock.rows)
        for column in range(stock.columns)
    ]


def content_box(stock: Stock, box: Box) -> Box:
    """The part of a label that is safe to print on: padding and the page's edge left out."""
    return box.inset(PADDING_MM).meet(stock.page.inset(stock.edge_mm))


def content_of_all(stock: Stock) -> Box:
    """The part of the first label that is safe to print on in every place of the sheet."""
    first, *others = label_boxes(stock)
    safe = content_box(stock, first)
    for box in others:
        own = content_box(stock, box)
        safe = safe.meet(
            Box(
                own.x_mm - box.x_mm + first.x_mm,
                own.y_mm - box.y_mm + first.y_mm,
                own.width_mm,
                own.height_mm,
            )
        )
    return safe


def find_stock(name: str, stocks: Sequence[Stock]) -> Stock:
    """The stock of a name; BadInput with a near miss when there is none."""
    wanted = name.strip().lower()
    for stock in stocks:
        if stock.name == wanted:
            return stock
    names = [stock.name for stock in stocks]
    near = near_miss(wanted, names)
    raise BadInput(f"no label stock {name[:40]!r}{near}; known are {', '.join(names)}")
