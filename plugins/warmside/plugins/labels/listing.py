"""`warmside labels stocks`, `lines` and `hazards`: what printing can choose from."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, Book, Column, Kind, Table, Unit, session_of
from warmside.plugins.labels.content import LINE_KEYS
from warmside.plugins.labels.gathering import Gatherer
from warmside.plugins.labels.printing import stocks_known
from warmside.plugins.labels.signs import hazards
from warmside.plugins.labels.slots import USED_ON, slot_of

STOCK_COLUMNS = (
    Column("name", "stock", Kind.CODE),
    Column("labels", "labels", Unit.COUNT),
    Column("width", "width", Unit.LENGTH),
    Column("height", "height", Unit.LENGTH),
    Column("page_width", "page width", Unit.LENGTH),
    Column("page_height", "page height", Unit.LENGTH),
    Column("mark", "figures"),
    Column("columns", "columns", Unit.COUNT, text=False),
    Column("rows", "rows", Unit.COUNT, text=False),
    Column("pitch_x", "pitch across", Unit.LENGTH, text=False),
    Column("pitch_y", "pitch down", Unit.LENGTH, text=False),
    Column("margin_left", "left margin", Unit.LENGTH, text=False),
    Column("margin_top", "top margin", Unit.LENGTH, text=False),
    Column("corner_radius", "corner radius", Unit.LENGTH, text=False),
    Column("source", "source", text=False),
)
LINE_COLUMNS = (
    Column("key", "line", Kind.CODE),
    Column("kinds", "printed unasked on", Kind.LIST),
    Column("example", "now, for one animal"),
)
HAZARD_COLUMNS = (
    Column("name", "danger", Kind.CODE),
    Column("sign", "large words"),
    Column("first", "what to do first"),
    Column("mark", "mark"),
    Column("source", "source", text=False),
)


def list_stocks(
    context: typer.Context,
    stocks: Annotated[
        Path | None, typer.Option(metavar="FILE.toml", help="A file with stocks of your own.")
    ] = None,
) -> Answer:
    """List the label stocks."""
    with session_of(context).read() as book:
        known = stocks_known(book, stocks)
        default = book.setting("labels", "stock")
    rows = tuple(
        (
            s.name,
            s.places,
            s.label_width_mm,
            s.label_height_mm,
            s.page_width_mm,
            s.page_height_mm,
            s.source.mark.value,
            s.columns,
            s.rows,
            s.pitch_x_mm,
            s.pitch_y_mm,
            s.margin_left_mm,
            s.margin_top_mm,
            s.corner_radius_mm,
            s.source.text,
        )
        for s in known
    )
    title = f"Label stocks; in use unless another is named: {default}"
    return Answer(title, (Table("stocks", STOCK_COLUMNS, rows),))


def list_lines(context: typer.Context) -> Answer:
    """List the lines that labels can have."""
    with session_of(context).read() as book:
        rows = (*_own_lines(), *_plugin_lines(book))
    return Answer("Lines of labels", (Table("lines", LINE_COLUMNS, rows),))


def _own_lines() -> list[tuple[str, tuple[str, ...], str | None]]:
    keys = dict.fromkeys(key for keys in LINE_KEYS.values() for key in keys)
    return [(k, tuple(kind for kind in LINE_KEYS if k in LINE_KEYS[kind]), None) for k in keys]


def _plugin_lines(book: Book) -> list[tuple[str, tuple[str, ...], str | None]]:
    """The lines that plugins give for any animal here, with the first text of each."""
    gatherer = Gatherer(book, book.today)
    found: dict[str, str] = {}
    for animal_id in book.animals_here():
        for line in gatherer.lines_of(animal_id):
            found.setdefault(line.key, line.text)
    return [
        (key, tuple(USED_ON.get(slot_of(key) or "", ())), text)
        for key, text in sorted(found.items())
    ]


def list_hazards(context: typer.Context) -> Answer:
    """List the dangers that hazard signs have words for."""
    rows = tuple(
        (h.name, h.sign, " ".join(h.first), h.source.mark.value, h.source.text) for h in hazards()
    )
    return Answer("Dangers", (Table("hazards", HAZARD_COLUMNS, rows),))
