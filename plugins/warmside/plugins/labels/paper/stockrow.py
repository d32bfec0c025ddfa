"""One row of a table of stocks made a stock, each value checked."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from warmside.api import BadInput, Mark, Source, near_miss
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.paper.stockcheck import check_stock

PAGES_MM = {  # ISO 216; ANSI/ASME Y14.1 size A for letter
    "a4": (210.0, 297.0),
    "a5": (148.0, 210.0),
    "a6": (105.0, 148.0),
    "a7": (74.0, 105.0),
    "letter": (215.9, 279.4),
}
SHEET_EDGE_MM = 4.5  # common practice, no source: what office printers leave white
ROLL_EDGE_MM = 1.5
LARGEST_PAGE_MM = 1200.0

_GRID = (
    "label_width_mm",
    "label_height_mm",
    "pitch_x_mm",
    "pitch_y_mm",
    "margin_left_mm",
    "margin_top_mm",
)
_ROLL = ("roll_width_mm", "roll_length_mm")
_PAGE = ("page_width_mm", "page_height_mm")
_COUNTS = ("columns", "rows")
_TEXTS = ("name", "page", "source", "mark")
_OPTIONAL = ("corner_radius_mm", "edge_mm")
_KEYS = (*_TEXTS, *_COUNTS, *_GRID, *_PAGE, *_ROLL, *_OPTIONAL)
_NAME = re.compile(r"[a-z0-9][a-z0-9.-]{0,39}")

_Row = dict[str, "str | int | float"]


def stock_from(raw: object, where: str) -> Stock:
    """The stock of a row; `where` names the row in messages. BadInput when wrong."""
    if not isinstance(raw, dict):
        raise BadInput(f"{where} is not a row of keys; write [[stock]] above its keys")
    row = {key: _value(key, value, where) for key, value in raw.items()}
    name = str(row.get("name", ""))
    if not _NAME.fullmatch(name):
        raise BadInput(f"{where} needs a name of small letters, digits, dots and dashes")
    where = f"stock {name}"
    stock = _roll(row, where) if any(key in row for key in _ROLL) else _sheet(row, where)
    check_stock(stock)
    return stock


def _value(key: object, value: object, where: str) -> str | int | float:
    key = str(key)
    if key not in _KEYS:
        near = near_miss(key, _KEYS)
        raise BadInput(
            f"{where} has an unknown key {key[:40]!r}{near}; known are {', '.join(_KEYS)}"
        )
    if key in _TEXTS:
        if isinstance(value, str):
            return value
        raise BadInput(f"{where}: {key} must be text in quotes")
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise BadInput(f"{where}: {key} must be a number without quotes")
    if key in _COUNTS and not (isinstance(value, int) and 1 <= value <= 100):
        raise BadInput(f"{where}: {key} is {value}; use a whole number from 1 to 100")
    if not math.isfinite(value) or not 0 <= value <= LARGEST_PAGE_MM:
        raise BadInput(f"{where}: {key} is {value}; use 0 to {LARGEST_PAGE_MM:g} mm")
    return value


def _need(row: Mapping[str, str | int | float], keys: tuple[str, ...], where: str) -> list[float]:
    missing = [key for key in keys if key not in row]
    if missing:
        raise BadInput(f"{where} lacks {', '.join(missing)}")
    return [float(row[key]) for key in keys]


def _refuse_others(row: _Row, allowed: tuple[str, ...], where: str, what: str) -> None:
    extra = [key for key in row if key not in (*allowed, "name", "source", "mark", *_OPTIONAL)]
    if extra:
        raise BadInput(f"{where} is {what} and cannot have {', '.join(extra)}")


def _roll(row: _Row, where: str) -> Stock:
    _refuse_others(row, _ROLL, where, "a roll")
    width, length = _need(row, _ROLL, where)
    grid = (width, length, width, length, 0.0, 0.0)
    return _build(row, (width, length), (1, 1), grid, ROLL_EDGE_MM, where)


def _sheet(row: _Row, where: str) -> Stock:
    page = _page(row, where)
    columns, rows = (int(n) for n in _need(row, _COUNTS, where))
    width, height, pitch_x, pitch_y, left, top = _need(row, _GRID, where)
    grid = (width, height, pitch_x, pitch_y, left, top)
    return _build(row, page, (columns, rows), grid, SHEET_EDGE_MM, where)


def _page(row: _Row, where: str) -> tuple[float, float]:
    if "page" not in row:
        width, height = _need(row, _PAGE, where)
        return width, height
    page = str(row["page"])
    if page not in PAGES_MM:
        raise BadInput(f"{where}: page {page[:20]!r} is unknown; use {', '.join(PAGES_MM)}")
    if any(key in row for key in _PAGE):
        raise BadInput(f"{where} has a page name and a page size; keep one of them")
    return PAGES_MM[page]


def _build(
    row: _Row,
    page: tuple[float, float],
    counts: tuple[int, int],
    grid: tuple[float, float, float, float, float, float],
    edge_mm: float,
    where: str,
) -> Stock:
    radius = float(row.get("corner_radius_mm", 0.0))
    edge = float(row.get("edge_mm", edge_mm))
    return Stock(str(row["name"]), *page, *counts, *grid, radius, edge, _source(row, where))


def _source(row: _Row, where: str) -> Source:
    mark = str(row.get("mark", Mark.KEEPERS_OWN.value))
    if mark not in set(Mark):
        raise BadInput(f"{where}: mark {mark[:40]!r} is unknown; use {', '.join(Mark)}")
    return Source(str(row.get("source", "measured by the keeper")), Mark(mark))
