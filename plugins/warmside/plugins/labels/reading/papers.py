"""The label stock and the printer that were named, or those of the settings."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from warmside.api import Ask, BadInput, near_miss, quoted
from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.paper.stock import Stock, find_stock
from warmside.plugins.labels.paper.stockfile import all_stocks, read_stocks
from warmside.plugins.labels.paper.stockrow import PAGES_MM

SIGN_STOCK = "a4-2x2"


def stocks_known(ask: Ask, file: Path | None) -> tuple[Stock, ...]:
    """The shipped stocks and those of the file, or of the file in the settings."""
    kept = ask.setting("labels", "stocks_file")
    path = file or (Path(kept).expanduser() if kept else None)
    return all_stocks(read_stocks(path) if path else ())


def paper_of(
    ask: Ask, name: str = "", file: Path | None = None, kind: LabelKind = LabelKind.ENCLOSURE
) -> Stock:
    """The stock that was named, or the one of the settings, shipped or the keeper's own."""
    known = stocks_known(ask, file)
    if name or not kind.is_sign:
        return find_stock(name or ask.setting("labels", "stock"), known)
    sign = ask.setting("labels", "sign_stock")
    return find_stock(sign, known) if sign else quarter_of(paper_of(ask, "", file), known)


def quarter_of(stock: Stock, known: Sequence[Stock]) -> Stock:
    """The stock of quarters of the same page, for signs; of A4 where there is none."""
    size = (stock.page_width_mm, stock.page_height_mm)
    quarters = [s for s in known if (s.columns, s.rows) == (2, 2)]
    same = (s for s in quarters if (s.page_width_mm, s.page_height_mm) == size)
    return next(same, find_stock(SIGN_STOCK, known))


def profile_in_use(ask: Ask, name: str | None) -> str:
    """The printer's profile that was named, or the one of the settings."""
    return str(ask.setting("labels", "profile")) if name is None else name


def page_size(ask: Ask, page: str, smallest_mm: tuple[float, float]) -> tuple[float, float]:
    """Width and height of the named page, else of the stock in use, else of A4.

    A stock whose page is smaller than `smallest_mm` is left aside.
    """
    if page:
        name = page.strip().lower()
        if name not in PAGES_MM:
            near = near_miss(name, PAGES_MM)
            raise BadInput(f"no page {quoted(page)!r}{near}; it is one of {', '.join(PAGES_MM)}")
        return PAGES_MM[name]
    stock = paper_of(ask)
    size = (stock.page_width_mm, stock.page_height_mm)
    fits = all(side >= least for side, least in zip(size, smallest_mm, strict=True))
    return size if fits else PAGES_MM["a4"]
