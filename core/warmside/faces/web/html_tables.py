"""Tables of the HTML face: a caption, a head, rows, and what goes under or between them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.values.units import Unit
from warmside.faces.cells import NOTHING, cell_text, is_numeric, table_bases
from warmside.faces.look import Look
from warmside.faces.row_words import row_words
from warmside.faces.web.markup import Markup, element, joined

ShowCell = Callable[[Cell, "Kind | Unit"], Markup]


def html_table(table: Table, look: Look, show: ShowCell, heading: str) -> Markup:
    """The table within an element that may scroll; its words where it has no row, if it has any."""
    shown = [index for index, column in enumerate(table.columns) if column.text]
    if not (table.rows and shown) and not table.empty:
        return joined([])
    title = element(heading, table.title) if table.title else None
    if not table.rows or not shown:
        return joined([title, element("p", table.empty)])
    bases = [element("p", basis, class_="basis") for basis in table_bases(table, shown)]
    if said := row_words(table, look):
        return joined([title, element("p", said), *bases])
    beside = [index for index in shown if not table.columns[index].below] or shown
    under = [index for index in shown if index not in beside]
    numeric = {i for i in beside if is_numeric(table.columns[i], [r[i] for r in table.rows])}
    head = [_cell("th", joined(table.columns[i].title), i in numeric, "col") for i in beside]
    rows = [
        joined(list(_row(table, n, beside, under, numeric, look, show)))
        for n in range(len(table.rows))
    ]
    grid = element("table", element("thead", element("tr", head)), element("tbody", rows))
    name = table.title or table.key
    scroll = element("div", grid, class_="scroll", tabindex=0, role="group", aria_label=name)
    return joined([title, scroll, bases])


def _row(
    table: Table,
    number: int,
    beside: Sequence[int],
    under: Sequence[int],
    numeric: set[int],
    look: Look,
    show: ShowCell,
) -> Iterator[Markup]:
    """What is said before the row, the row, and the cells that go under it."""
    row = table.rows[number]
    wide = len(beside)
    for index, words in table.before.items():
        if index == number:
            yield element("tr", element("td", element("div", words), colspan=wide), class_="break")
    cells = [_cell("td", show(row[i], table.columns[i].kind), i in numeric) for i in beside]
    yield element("tr", cells)
    for i in under:
        column = table.columns[i]
        if cell_text(row[i], column.kind, look) not in ("", NOTHING):
            named = element("div", _named(column, show(row[i], column.kind)))
            cell = element("td", named, colspan=wide)
            yield element("tr", cell, class_="under")


def _cell(tag: str, inner: Markup, numeric: bool, scope: str | None = None) -> Markup:
    return element(tag, inner, class_="number" if numeric else None, scope=scope)


def _named(column: Column, shown: Markup) -> Markup:
    return joined([f"{column.title}: ", shown])
