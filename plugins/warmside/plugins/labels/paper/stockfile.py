"""Stocks read from TOML: the shipped table, and the keeper's own file."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

import tomli

from warmside.api import BadInput, sourced_rows
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.paper.stockrow import stock_from


@cache
def shipped_stocks() -> tuple[Stock, ...]:
    """The stocks that come with the program."""
    return _stocks(sourced_rows("warmside.plugins.labels", "stocks", "stock"), "stocks.toml")


def read_stocks(path: Path) -> tuple[Stock, ...]:
    """The keeper's own stocks from a TOML file; source and mark may be left out."""
    try:
        text = path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(f"{path.name} cannot be read as a text file; check the path") from error
    return parse_stocks(text, path.name)


def all_stocks(own: tuple[Stock, ...]) -> tuple[Stock, ...]:
    """The shipped stocks with the keeper's own ones; an own one replaces its namesake."""
    names = {stock.name for stock in own}
    return (*(stock for stock in shipped_stocks() if stock.name not in names), *own)


def parse_stocks(text: str, where: str) -> tuple[Stock, ...]:
    """The `[[stock]]` rows of a TOML text; `where` names it in messages. BadInput when wrong."""
    try:
        table = tomli.loads(text)
    except (tomli.TOMLDecodeError, RecursionError) as error:
        said = str(error).splitlines()[0] if str(error) else "nested too deeply"
        raise BadInput(f"{where} is not valid TOML: {said[:120]}") from error
    if set(table) != {"stock"} or not isinstance(table["stock"], list):
        raise BadInput(f"{where} must hold [[stock]] rows and nothing else")
    return _stocks(table["stock"], where)


def _stocks(rows: Iterable[object], where: str) -> tuple[Stock, ...]:
    stocks = tuple(stock_from(row, f"{where}, stock {n}") for n, row in enumerate(rows, 1))
    names = [stock.name for stock in stocks]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice:
        raise BadInput(f"{where} has two stocks called {twice}; rename one")
    return stocks
