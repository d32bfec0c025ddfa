"""What a print answers: where each label is, and what to see to at the printer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from pathlib import Path

from warmside.api import Answer, Column, Fact, Kind, Part, Table, Tone, Unit, Words
from warmside.plugins.labels.content.picking import Ready
from warmside.plugins.labels.drawing.sheet import SheetResult
from warmside.plugins.labels.paper.places import used_text
from warmside.plugins.labels.paper.profile import PRINT_NOTE
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.typesetting.layout import FAR_READABLE_MM

COLUMNS = (
    Column("page", "page", Unit.COUNT),
    Column("place", "place", Unit.COUNT),
    Column("code", "code", Kind.CODE),
    Column("label", "label"),
    Column("qr", "QR", Kind.CODE),
    Column("kind", "kind", text=False),
)


def printed_answer(
    target: Path,
    stock: Stock,
    ready: Sequence[Ready],
    result: SheetResult,
    preview: bool,
    warnings: Iterable[str],
    hint: str,
) -> Answer:
    """The answer of a print."""
    count = _counted(len(result.placed), "label")
    pages = _counted(result.pages, "page")
    word = "preview of " if preview else ""
    height = result.lead_mm
    parts: list[Part] = [
        Words(f"wrote {word}{count} on {pages} of {stock.name} to {target}"),
        placed_table(ready, result),
    ]
    if math.isfinite(height):
        parts.append(Fact("name_height", "height of the names", height, Unit.LENGTH))
    if stock.places > 1:
        parts.append(Fact("used", "used on this sheet", used_text(result.used) or "all"))
    hints = [PRINT_NOTE, hint, "" if preview else "warmside undo (forget this print)"]
    parts += [Words(text, Tone.HINT) for text in hints if text]
    return Answer(
        f"{ready[0].label.kind.value.capitalize()} labels",
        tuple(parts),
        warnings=(*warnings, *_too_small(height)),
        extra={
            "file": str(target),
            "stock": stock.name,
            "pages": result.pages,
            "labels_printed": len(result.placed),
        },
    )


def nothing_changed() -> Answer:
    """The answer where no label says anything new."""
    words = Words("nothing changed since it was printed; no file was written")
    return Answer(parts=(words,), extra={"labels_printed": 0, "labels": []})


def placed_table(ready: Sequence[Ready], result: SheetResult) -> Table:
    """One row a label: where it is and what it says."""
    who = {r.label: r.who for r in ready}
    rows = tuple(
        (
            item.page + 1,
            item.place,
            item.label.code_text,
            who[item.label],
            item.label.payload,
            item.label.kind.value,
        )
        for item in result.placed
    )
    return Table("labels", COLUMNS, rows)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _too_small(height_mm: float) -> Iterable[str]:
    if height_mm < FAR_READABLE_MM:
        yield (
            f"the smallest name is {height_mm:.1f} mm high, hard to read from a metre; take a "
            "larger stock or fewer lines"
        )
